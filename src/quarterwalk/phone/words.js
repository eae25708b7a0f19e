/** Every sentence the screens say; gaps are named. */
export { OUTCOMES, QUARTERS, SQUARES, common } from './words/names.js';
export { day, gate, pair, phone } from './words/day.js';
export { note, plant, standing, where } from './words/walk.js';
export { call, finish, handover, take } from './words/end.js';
