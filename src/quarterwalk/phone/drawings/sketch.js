/**
 * The office's sketch of a field: read as XML, rebuilt from a short list of elements and
 * attributes, so that nothing in a card can run or fetch; the current stop is marked.
 */
import { nothing } from '../vendor/lit-html.js';

const SPACE = 'http://www.w3.org/2000/svg';
const ELEMENTS = new Set([
  'svg', 'g', 'path', 'rect', 'circle', 'ellipse', 'line', 'polyline', 'polygon', 'text', 'tspan', 'title', 'desc',
]);
const ATTRIBUTES = new Set([
  'class', 'd', 'x', 'y', 'dx', 'dy', 'x1', 'y1', 'x2', 'y2', 'cx', 'cy', 'r', 'rx', 'ry', 'width', 'height',
  'points', 'transform', 'viewBox', 'font-size', 'data-stop', 'id', 'role', 'aria-label', 'aria-labelledby',
]);

let last = { text: null, current: null, node: null };

function copied(from) {
  const node = document.createElementNS(SPACE, from.localName);
  for (const { name, value } of from.attributes) {
    if (ATTRIBUTES.has(name)) node.setAttribute(name, value);
  }
  for (const child of from.childNodes) {
    if (child.nodeType === 3) node.append(child.data);
    else if (child.nodeType === 1 && child.namespaceURI === SPACE && ELEMENTS.has(child.localName)) {
      node.append(copied(child));
    }
  }
  return node;
}

function drawn(text, current) {
  const root = new DOMParser().parseFromString(text, 'image/svg+xml').documentElement;
  if (root.namespaceURI !== SPACE || root.localName !== 'svg') return null;
  const node = copied(root);
  const stop = [...node.querySelectorAll('[data-stop]')].find((each) => each.dataset.stop === String(current));
  if (stop) {
    stop.classList.add('stop-now');
    stop.parentNode.append(stop); // the ringed stop lies on top of its neighbours
  }
  return node;
}

/** Give the sketch as a node, or nothing where there is none that can be read. */
export function sketch(text, current = null) {
  if (!text) return nothing;
  if (last.text !== text || last.current !== current) last = { text, current, node: drawn(text, current) };
  return last.node ?? nothing;
}
