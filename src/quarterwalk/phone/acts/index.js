/** The acts by the names of their screens. */
import { dayActs } from './day.js';
import { gateActs } from './gate.js';
import { handoverActs, takeActs } from './handover.js';
import { noteActs } from './note.js';
import { pairActs } from './pair.js';
import { phoneActs } from './phone.js';
import { plantActs } from './plant.js';
import { callActs, finishActs, standingActs, whereActs } from './walk.js';

/**
 * Give every screen its acts.
 * @param {object} app state, show, write, and the services that acts call
 */
export const actsOf = (app) => ({
  call: callActs(app),
  day: dayActs(app),
  finish: finishActs(app),
  gate: gateActs(app),
  handover: handoverActs(app),
  note: noteActs(app),
  pair: pairActs(app),
  phone: phoneActs(app),
  plant: plantActs(app),
  standing: standingActs(app),
  take: takeActs(app),
  where: whereActs(app),
});
