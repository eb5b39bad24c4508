/**
 * Makes the served page work without a network from the second visit on. A page opened from a disk needs no
 * such thing.
 */
export function workOffline(): void {
  if (import.meta.env.MODE !== 'production' || !location.protocol.startsWith('http')) return;
  navigator.serviceWorker?.register('./service-worker.js').catch(() => {
    // Served without the secure connection that browsers ask for: the page works all the same, online.
  });
}
