/** Whether the app stands on the home screen or in a tab of a browser: on a tablet these are two stores. */

export function isInstalled(): boolean {
  const onHomeScreen = (navigator as { readonly standalone?: boolean }).standalone === true;
  return (
    onHomeScreen || matchMedia('(display-mode: standalone), (display-mode: fullscreen)').matches
  );
}

/** A tablet or phone: held by fingers, and with a home screen to put the app on. */
export function isTouched(): boolean {
  return navigator.maxTouchPoints > 0 && matchMedia('(pointer: coarse)').matches;
}
