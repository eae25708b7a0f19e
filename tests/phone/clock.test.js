import assert from 'node:assert/strict';
import { test } from 'node:test';
import { dayOf, makeClock, wallTime } from '../../src/quarterwalk/phone/clock.js';

const MOMENT = Date.parse('2026-06-18T14:41:07.250Z');

test('a moment is written in local time, to the millisecond, with its offset', () => {
  assert.equal(wallTime(MOMENT, -300), '2026-06-18T09:41:07.250-05:00');
  assert.equal(wallTime(MOMENT, 330), '2026-06-18T20:11:07.250+05:30');
  assert.equal(wallTime(MOMENT, 0), '2026-06-18T14:41:07.250+00:00');
});

test('what is written is the same moment when it is read', () => {
  for (const offset of [-720, -300, -210, 0, 345, 840]) assert.equal(Date.parse(wallTime(MOMENT, offset)), MOMENT);
});

test('the day of a moment is the day where it was written', () => {
  assert.equal(dayOf(wallTime(Date.parse('2026-06-19T03:30:00Z'), -300)), '2026-06-18');
});

test('a demo office on another day shifts the clock, and its tick stays', () => {
  const clock = makeClock({ now: () => MOMENT, tick: () => 183250.7, offset: () => -300 });
  assert.equal(clock.at(), '2026-06-18T09:41:07.250-05:00');
  clock.shift(24 * 60 * 60 * 1000);
  assert.equal(clock.at(), '2026-06-19T09:41:07.250-05:00');
  assert.equal(clock.today(), '2026-06-19');
  assert.equal(clock.tick(), 183250);
});
