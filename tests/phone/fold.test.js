import assert from 'node:assert/strict';
import { test } from 'node:test';
import { foldWalk } from '../../src/quarterwalk/phone/fold.js';
import { progress, quarterLeft } from '../../src/quarterwalk/phone/route.js';
import { DEVICE, FIELD, JOSS, OPENED, OTHER, WALK, WEN, card, checked, journal, skipped, walkOf } from './made.js';

const fold = (entries, more = {}) => foldWalk(entries, { walk: WALK, device: DEVICE, person: JOSS, card, ...more });
const said = (...list) => fold(journal([OPENED, ...list]));
const place = ({ next }) => [next.stop, next.plant, next.checked];

test('a walk goes stop by stop in the card’s order, five plants each', () => {
  assert.deepEqual(place(said()), [1, 1, 0]);
  assert.deepEqual(place(said(...walkOf(4))), [1, 5, 4]);
  assert.deepEqual(place(said(...walkOf(5))), [2, 1, 0]);
  assert.deepEqual(place(said(...walkOf(99))), [20, 5, 4]);
});

test('a plant passed over has a number but does not count: the stop still gets five', () => {
  const walk = said(checked(1, 1), skipped(1, 2), checked(1, 3), checked(1, 4), checked(1, 5));
  assert.deepEqual(place(walk), [1, 6, 4]);
  assert.equal(walk.sums.plants, 4);
  assert.deepEqual(place(said(checked(1, 1), skipped(1, 2), ...[3, 4, 5, 6].map((n) => checked(1, n)))), [2, 1, 0]);
});

test('taking back goes over stops, and the number is used again', () => {
  const walk = said(...walkOf(5), ['struck', { seq: 6 }]);
  assert.deepEqual(place(walk), [1, 5, 4]);
  assert.equal(walk.last.seq, 5);
});

test('a whole walk is walked; more plants may follow at the last stop', () => {
  const walk = said(...walkOf(100));
  assert.ok(walk.walked);
  assert.deepEqual(place(walk), [20, 6, 5]);
});

test('lost squares are the missing, the blasted and the flared', () => {
  const { sums } = said(checked(1, 1, { adults: 1, nymphs: 2, squares: { healthy: 3, missing: 1, blasted: 1, flared: 1 } }));
  assert.deepEqual(sums, { plants: 1, insects: 3, squares: 6, healthy: 3, lost: 3, blasted: 1, squarePlants: 1, squaring: 1 });
});

test('a quarter is left when its last stop in a loop has its plants', () => {
  const left = (count, stop) => quarterLeft(card, said(...walkOf(count)).stops, stop);
  assert.equal(left(5, 1), null);
  assert.equal(left(10, 2), 'NW');
  assert.equal(left(40, 8), 'SW');
  assert.equal(left(99, 20), null);
  assert.equal(left(100, 20), 'NW');
});

test('progress counts a quarter’s plants, and its stops that have five', () => {
  const [nw, ne] = progress(card, said(...walkOf(7)).stops, 'NW');
  assert.deepEqual(nw, { quadrant: 'NW', checked: 7, of: 25, stops: [true, false, false, false, false], current: true });
  assert.equal(ne.checked, 0);
});

test('on the same phone another scout goes on, and the entries are in that name', () => {
  assert.equal(said(checked(1, 1)).by, JOSS);
  const walk = said(checked(1, 1), ['handed-over', { to: WEN, entries: 3 }]);
  assert.equal(walk.by, WEN);
  assert.equal(walk.state, 'handed-over');
});

test('another phone goes on where the first one stopped', () => {
  const begun = {
    walk: WALK, field: FIELD, card: null, from: 'Joss', entries: { [DEVICE]: 9 },
    done: { 1: 5, 2: [1, 4] }, sums: [6, 2, 10, 9, 1, 0, 3, 3], noted: ['NW'],
  };
  const there = { device: OTHER, person: WEN, begun };
  const first = fold([], there);
  assert.equal(first.state, 'open');
  assert.deepEqual(place(first), [2, 4, 1]);
  const own = journal([checked(2, 4, { adults: 1 })], { device: OTHER, by: WEN, from: 70 });
  const next = fold(own, there);
  assert.deepEqual(place(next), [2, 5, 2]);
  assert.deepEqual(next.sums, { plants: 7, insects: 3, squares: 10, healthy: 9, lost: 1, blasted: 0, squarePlants: 3, squaring: 3 });
  assert.deepEqual(next.counts, { [DEVICE]: 9, [OTHER]: 1 });
  assert.ok(next.noted.has('NW'));
});

test('a phone takes back only what it wrote itself', () => {
  const others = journal([checked(2, 1)], { device: OTHER, by: WEN, from: 70 });
  assert.equal(fold([...journal([OPENED, checked(1, 1)]), ...others]).last.device, DEVICE);
});

test('three hundred entries are folded within the time of a frame', () => {
  const entries = journal([OPENED, ...walkOf(100), ...walkOf(100).map(([kind, body]) => [kind, { ...body, plant: body.plant + 5 }]), ...walkOf(99).map((_, i) => ['struck', { seq: i + 2 }])]);
  assert.equal(entries.length, 300);
  fold(entries);
  const from = performance.now();
  for (let i = 0; i < 20; i += 1) fold(entries);
  const each = (performance.now() - from) / 20;
  assert.ok(each < 16, `took ${each.toFixed(2)} ms`);
});

test('a walk that another phone was to take is away, until this phone goes on with it', () => {
  const handed = ['handed-over', { to: JOSS, entries: 3 }];
  assert.ok(said(checked(1, 1), handed).away);
  assert.ok(!said(checked(1, 1), handed, checked(1, 2)).away);
  assert.ok(!said(checked(1, 1), ['handed-over', { to: WEN, entries: 3 }]).away);
});
