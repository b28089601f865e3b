/**
 * When the page is done with what it is at, such as rendering an edit. Not a timer: those are held back
 * for a second once the page is out of sight, and what waits here may be on its way to the disk.
 */
export function nextTask(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(null);
  });
}
