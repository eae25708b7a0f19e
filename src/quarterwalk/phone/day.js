/** The day and its cards, fetched while there is a signal. */
import { cardFault } from './card.js';

const hex = (bytes) => [...new Uint8Array(bytes)].map((byte) => byte.toString(16).padStart(2, '0')).join('');

/**
 * Take a card's bytes only where they are the ones that the office named.
 * @param {ArrayBuffer} bytes
 * @param {string} hash
 * @param {(bytes: ArrayBuffer) => Promise<ArrayBuffer>} digest SHA-256
 * @returns {Promise<{text: string, card: object}|null>}
 */
export async function provenCard(bytes, hash, digest) {
  if (hex(await digest(bytes)) !== hash) return null;
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    const card = JSON.parse(text);
    return cardFault(card) ? null : { text, card };
  } catch {
    return null;
  }
}

/** Fetch one card and keep it. @returns {Promise<{card?: object, fault?: string}>} */
export async function fetchCard(hash, { office, store, digest }) {
  const answer = await office.card(hash);
  if (!answer.ok) return { fault: answer.fault };
  const proven = await provenCard(answer.bytes, hash, digest);
  if (!proven) return { fault: 'card' };
  await store.putCard(hash, proven.text);
  return { card: proven.card };
}

/**
 * Fetch the day, then every card that is not on this phone yet.
 * @param {Record<string, object>} held cards by hash
 * @returns {Promise<{day: object|null, cards: Record<string, object>, fault: string}>} the first
 *   fault; what came before it is kept
 */
export async function fetchDay(held, services) {
  const answer = await services.office.day();
  if (!answer.ok) return { day: null, cards: {}, fault: answer.fault };
  const day = answer.json;
  const cards = {};
  let fault = '';
  for (const { card: hash } of day.fields) {
    if (!hash || held[hash] || cards[hash]) continue;
    const got = await fetchCard(hash, services);
    if (got.card) cards[hash] = got.card;
    fault ||= got.fault ?? '';
    if (['offline', 'token'].includes(got.fault)) break;
  }
  return { day, cards, fault };
}

/** Choose the cards that nothing needs any more: not the day, and no walk that is open. */
export function unneededCards(held, day, openWalks) {
  const needed = new Set([...day.fields.map(({ card }) => card), ...openWalks.map(({ cardHash }) => cardHash)]);
  return Object.keys(held).filter((hash) => !needed.has(hash));
}
