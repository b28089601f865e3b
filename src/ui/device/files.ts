/** A file made on this device handed to the weaver: saved where downloads go, or shared. */

/** Firefox on computers has no sharing at all, and some systems share text but no files. */
export function canShare(file: File): boolean {
  return typeof navigator.canShare === 'function' && navigator.canShare({ files: [file] });
}

/** Must be called at the tap itself: after a wait the browser no longer takes it for the weaver's wish. */
export async function shareFile(file: File): Promise<'shared' | 'closed'> {
  try {
    await navigator.share({ files: [file], title: file.name });
    return 'shared';
  } catch {
    // Closed without sharing; a failure looks the same to us, and the weaver can still save.
    return 'closed';
  }
}

export function downloadFile(file: File): void {
  const url = URL.createObjectURL(file);
  const link = document.createElement('a');
  link.href = url;
  link.download = file.name;
  link.click();
  // Safari reads the file only some time after the click.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
