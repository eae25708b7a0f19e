/** One window writes; every other one reads, and takes over when the first is closed. */

const NAME = 'quarterwalk-writer';
const forEver = () => new Promise(() => {});

/**
 * Ask to be the window that writes.
 * @param {LockManager|undefined} locks a browser without them has numbers from the store alone,
 *   which can't clash
 * @param {{held: () => void, waiting: () => void}} told
 */
export async function askToWrite(locks, { held, waiting }) {
  if (!locks) return held();
  const hold = () => {
    held();
    return forEver();
  };
  locks.request(NAME, { ifAvailable: true }, (lock) => {
    if (lock) return hold();
    waiting();
    locks.request(NAME, hold);
    return undefined;
  });
  return undefined;
}
