/** What may leave this phone: walks that the office has held for 30 days. */
import { DAY } from './clock.js';

/** How long acknowledged entries stay. [ms] */
export const KEPT_FOR = 30 * DAY;

const acknowledgedAt = ({ answer, answeredAt }) =>
  answer === 'held' || answer === 'already-held' ? answeredAt : Infinity;

/**
 * Choose the entries to purge. A walk goes as a whole; what is unsent or set aside at the office
 * stays, and so does each device's last entry, which tells the next number.
 * @param {{device: string, seq: number, walk?: string, answer?: string, answeredAt?: number}[]} records
 * @param {number} now [ms]
 * @returns {[string, number][]} keys
 */
export function purgeable(records, now) {
  const last = new Map();
  const latest = new Map();
  const wholeOf = ({ device, seq, walk }) => walk ?? `${device}-${seq}`;
  for (const record of records) {
    last.set(record.device, Math.max(record.seq, last.get(record.device) ?? 0));
    const whole = wholeOf(record);
    latest.set(whole, Math.max(acknowledgedAt(record), latest.get(whole) ?? 0));
  }
  return records
    .filter((record) => latest.get(wholeOf(record)) + KEPT_FOR <= now)
    .filter(({ device, seq }) => seq !== last.get(device))
    .map(({ device, seq }) => [device, seq]);
}
