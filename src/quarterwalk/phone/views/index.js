/** The views by the names of their screens. */
import { call } from './call.js';
import { day } from './day.js';
import { finish } from './finish.js';
import { gate } from './gate.js';
import { handover } from './handover.js';
import { note } from './note.js';
import { pair } from './pair.js';
import { phone } from './phone.js';
import { plant } from './plant.js';
import { standing } from './standing.js';
import { take } from './take.js';
import { where } from './where.js';

export const views = { call, day, finish, gate, handover, note, pair, phone, plant, standing, take, where };
