/** How safe counts are on this phone, as far as the browser tells. */

/** Less free room than this is said before a walk (this project's rule). [bytes] */
const LOW_ROOM = 20_000_000;

/** iPads call themselves Macs, but no Mac has a screen that takes five fingers. */
const isIos = ({ userAgent, maxTouchPoints }) =>
  /iPhone|iPad|iPod/.test(userAgent) || (/Macintosh/.test(userAgent) && maxTouchPoints > 4);

const isStandalone = ({ standalone }, matches) => standalone === true || matches('(display-mode: standalone)');

/**
 * Ask how things stand.
 * @param {Navigator} navigator
 * @param {(query: string) => boolean} matches media query
 * @returns {Promise<{persisted: boolean|null, used: number|null, low: boolean, ios: boolean, standalone: boolean}>}
 */
export async function storageState(navigator, matches) {
  const { storage } = navigator;
  const persisted = storage?.persisted ? await storage.persisted().catch(() => null) : null;
  const room = storage?.estimate ? await storage.estimate().catch(() => ({})) : {};
  const free = (room.quota ?? Infinity) - (room.usage ?? 0);
  return {
    persisted,
    used: room.usage ?? null,
    low: free < LOW_ROOM,
    ios: isIos(navigator),
    standalone: isStandalone(navigator, matches),
  };
}

/** Ask the browser to keep what is here even when it runs short of room. */
export const askToKeep = async ({ storage }) =>
  storage?.persist ? storage.persist().catch(() => false) : null;
