import assert from 'node:assert/strict';
import { test } from 'node:test';
import { wayTo } from '../../src/quarterwalk/phone/way.js';

// A degree of latitude on a sphere of 6371 km is 364 813 feet; cos 60 degrees is one half.
test('a thousandth of a degree north is 360 feet', () => {
  assert.deepEqual(wayTo([-101, 33], [-101, 33.001]), { feet: 360, eighth: 0 });
});

test('at 60 degrees north a degree of longitude is half as long', () => {
  assert.deepEqual(wayTo([10, 60], [10.001, 60]), { feet: 180, eighth: 2 });
});

test('headings go round by eighths', () => {
  const to = (east, north) => wayTo([0, 0], [east / 1000, north / 1000]).eighth;
  assert.deepEqual([to(0, 1), to(1, 1), to(1, 0), to(1, -1), to(0, -1), to(-1, -1), to(-1, 0), to(-1, 1)], [0, 1, 2, 3, 4, 5, 6, 7]);
});
