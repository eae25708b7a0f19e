/** The screens by their names. */
import { call } from './screens/call.js';
import { day } from './screens/day.js';
import { finish } from './screens/finish.js';
import { gate } from './screens/gate.js';
import { handover } from './screens/handover.js';
import { note } from './screens/note.js';
import { pair } from './screens/pair.js';
import { phone } from './screens/phone.js';
import { plant } from './screens/plant.js';
import { standing } from './screens/standing.js';
import { take } from './screens/take.js';
import { where } from './screens/where.js';

export const screens = { call, day, finish, gate, handover, note, pair, phone, plant, standing, take, where };
