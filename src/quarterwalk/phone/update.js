/** A later version of the page comes in only between walks. */

/**
 * Keep watch for a later version.
 * @param {ServiceWorkerContainer|undefined} workers
 * @param {{mayChange: () => boolean, reload: () => void}} told
 * @returns {{check: () => void}} to be called whenever a walk was closed
 */
export function watchForUpdate(workers, { mayChange, reload }) {
  let registration = null;
  let asked = false;
  const check = () => {
    if (!workers.controller || !registration?.waiting || !mayChange()) return;
    asked = true;
    registration.waiting.postMessage('take-over');
  };
  if (!workers) return { check: () => {} };
  workers.addEventListener('controllerchange', () => {
    if (asked) reload();
  });
  workers
    .register('sw.js', { updateViaCache: 'none' })
    .then((got) => {
      registration = got;
      got.addEventListener('updatefound', () => {
        got.installing?.addEventListener('statechange', check);
      });
      check();
    })
    .catch(() => {}); // without a signal the worker that is here already stays
  return { check };
}
