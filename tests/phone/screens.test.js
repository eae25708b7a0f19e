import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { test } from 'node:test';

// The template library asks the page for a comment and a tree walker when it is loaded.
globalThis.document ??= { createComment: () => ({}), createTreeWalker: () => ({}) };

const PHONE = new URL('../../src/quarterwalk/phone/', import.meta.url);
const FIXTURES = new URL('./fixtures/', import.meta.url);
const names = readdirSync(FIXTURES).map((file) => file.replace('.json', ''));
const read = (name, from = PHONE) => readFileSync(new URL(name, from), 'utf8');
const load = async (path) => import(new URL(path, PHONE));

const screens = Object.fromEntries(
  await Promise.all(names.map(async (name) => [name, (await load(`screens/${name}.js`))[name]])),
);
const words = await load('words.js');
const fixtures = Object.fromEntries(names.map((name) => [name, JSON.parse(read(`${name}.json`, FIXTURES))]));

/** Write a template as text, and gather what its taps do by the tag they stand in. */
function shown(template, taps = []) {
  if (template === null || template === undefined || typeof template === 'symbol') return '';
  if (Array.isArray(template)) return template.map((each) => shown(each, taps)).join('');
  if (!template.strings) return String(template);
  return template.strings.reduce((before, text, i) => {
    const value = template.values[i - 1];
    if (typeof value !== 'function') return before + shown(value, taps) + text;
    taps.push({ tag: before.slice(before.lastIndexOf('<')), act: value });
    return before + text;
  });
}

/** Show a screen; a sketch needs a browser to read it, so none is shown here. */
function show(screen, view, acts = {}) {
  const taps = [];
  const act = new Proxy(acts, { get: (of, name) => of[name] ?? (() => {}) });
  const bare = { ...view, ...('svg' in view ? { svg: null } : {}), ...('sketch' in view ? { sketch: null } : {}) };
  return { html: shown(screens[screen](bare, act), taps), taps };
}

const everyView = names.flatMap((screen) =>
  Object.entries(fixtures[screen]).map(([name, view]) => ({ screen, name, view })),
);
const outcomesIn = (html) => [...html.matchAll(/class="outcome (?:marked )?([a-z-]+)/g)].map(([, found]) => found);
const plainText = (html) => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');

for (const { screen, name, view } of everyView) {
  test(`${screen}, ${name}: one heading, one main part, nothing unsaid shown as a word`, () => {
    const { html } = show(screen, view);
    assert.equal(html.match(/<h1/g).length, 1);
    assert.equal(html.match(/<main/g).length, 1);
    assert.doesNotMatch(plainText(html), /undefined|null|NaN|\[object/);
  });
}

test('no screen carries a style of its own, which the page would refuse', () => {
  for (const { screen, view } of everyView) assert.doesNotMatch(show(screen, view).html, /\sstyle=|<style|<script/);
});

test('a screen has one filled button at most', () => {
  for (const { screen, view } of everyView) {
    const filled = show(screen, view).html.match(/class="main-button/g) ?? [];
    assert.ok(filled.length <= 1, screen);
  }
});

test('hold, look sooner and treat stand in this order wherever they are shown', () => {
  const found = everyView.map(({ screen, view }) => outcomesIn(show(screen, view).html)).filter((each) => each.length);
  assert.ok(found.length > 5);
  for (const each of found) assert.deepEqual(each.slice(0, 3), ['hold', 'look-sooner', 'treat']);
});

test('where the scout stands, the sun is told after the way', () => {
  const html = plainText(show('where', fixtures.where.typical).html);
  const order = ['to the south-east', 'Walk in facing the sun, east (83°). Your shadow falls behind you.', 'Along the rows'];
  const found = order.map((words) => html.indexOf(words));
  assert.ok(found[0] > 0 && found[0] < found[1] && found[1] < found[2], String(found));
  assert.match(show('where', fixtures.where.beginning).html, /The sun is overhead from 12:21 to 15:22/);
  assert.doesNotMatch(show('where', fixtures.where.worst).html, /sun-words/);
});

test('only a call of the office that is not for now is filled', () => {
  for (const { screen, view } of everyView) {
    const firm = screen === 'call' && view.office && !view.office.provisional;
    assert.equal(/marked [a-z-]+ filled/.test(show(screen, view).html), Boolean(firm), screen);
  }
});

test('until the office has spoken the call says so', () => {
  const { typical, waiting, beginning, provisional, worst } = fixtures.call;
  for (const view of [typical, waiting, beginning, worst]) {
    assert.match(plainText(show('call', view).html), /To be confirmed by the office/);
  }
  assert.match(plainText(show('call', { ...provisional, state: '' }).html), /The office’s call, for now/);
});

test('a field that is not on the phone says so, whatever else is said of it', () => {
  for (const view of Object.values(fixtures.day)) {
    const away = view.fields.filter(({ onPhone, state }) => !onPhone && state !== 'no-card');
    const said = plainText(show('day', view).html).match(/Not on this phone\. Get it before you go\./g) ?? [];
    assert.equal(said.length, away.length);
  }
});

test('no odds stand on the phone', () => {
  for (const { screen, view } of everyView) assert.doesNotMatch(plainText(show(screen, view).html), /\d in \d/);
});

test('at a new stop the squares are counted afresh before a plant can be saved', () => {
  const picked = [];
  const { html, taps } = show('plant', fixtures.plant.beginning, { squares: (by) => picked.push(by) });
  assert.match(html, /class="main-button[^>]*\?disabled=true/);
  for (const { tag, act } of taps) if (tag.includes('class="number"')) act();
  assert.deepEqual(picked, [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
});

test('the main button of a plant says what it will write, and does it', () => {
  for (const [name, said, done] of [['typical', 'Clean, next', 'clean'], ['marked', 'Save, next', 'save']]) {
    const acts = [];
    const view = fixtures.plant[name];
    const { html, taps } = show('plant', view, { clean: () => acts.push('clean'), save: () => acts.push('save') });
    assert.ok(plainText(html).includes(`${said} ${view.writes}`));
    taps.find(({ tag }) => tag.includes('main-button')).act();
    assert.deepEqual(acts, [done]);
  }
});

test('a window that only reads can count nothing', () => {
  const counted = [];
  const spy = (name) => () => counted.push(name);
  const { html } = show('plant', fixtures.plant.readonly, { clean: spy('clean') });
  const open = [...html.matchAll(/<button[^>]*class="(?:step|site|main-button|side-button)[^>]*>/g)];
  assert.ok(open.length > 8);
  for (const [tag] of open) assert.match(tag, /\?disabled=true/);
});

test('each square is named by its branch, the lowest first', () => {
  const { html } = show('plant', fixtures.plant.marked);
  const named = [...html.matchAll(/aria-label=(Branch \d, \w+)/g)].map(([, name]) => name);
  assert.deepEqual(named.reverse(), ['Branch 1, healthy', 'Branch 2, missing', 'Branch 3, flared', 'Branch 4, blasted']);
});

test('a closed field and a field with a sign cannot be walked into', () => {
  for (const name of ['closed', 'sign']) {
    const asked = [];
    const keep = (what) => () => asked.push(what);
    const acts = { answerNothing: keep('in'), calledOffice: keep('in'), back: keep('back') };
    const { taps } = show('gate', fixtures.gate[name], acts);
    for (const { tag, act } of taps) if (tag.startsWith('<button')) act();
    assert.ok(asked.length > 0 && !asked.includes('in'), name);
  }
});

test('an old card is gone past only by a call to the office', () => {
  const asked = [];
  const { taps } = show('gate', fixtures.gate.worst, {
    answerNothing: () => asked.push('nothing'), calledOffice: () => asked.push('called') });
  taps.find(({ tag }) => tag.includes('main-button')).act();
  assert.deepEqual(asked, ['called']);
});

test('the cautions stand at the gate and beside the call', () => {
  for (const [screen, view, care] of [
    ['gate', fixtures.gate.typical, fixtures.gate.typical.care],
    ['call', fixtures.call.treat, fixtures.call.treat.office.care],
  ]) {
    const text = plainText(show(screen, view).html);
    for (const each of care) assert.ok(text.includes(each), each);
  }
});

/** Give every sentence; those with gaps are filled with whatever is asked for. */
function sentences(of) {
  const gaps = new Proxy({}, { get: (_, name) => (name === 'quadrant' ? 'NE' : name === 'state' ? 'missing' : 40) });
  return Object.values(of).flatMap((each) => {
    if (typeof each === 'string') return [each];
    return typeof each === 'function' ? [each(gaps)] : sentences(each);
  });
}

test('the first sentence of what is said is short, and nothing is said with a shout', () => {
  const said = sentences(words);
  assert.ok(said.length > 150);
  for (const each of said) {
    assert.doesNotMatch(each, /!|\b(invalid|error|please)\b/i);
    assert.ok(each.split(/[.?:;]/)[0].split(' ').length < 12, each);
  }
});

/** How far two colours stand apart, by the formula of WCAG 2.2. */
function contrast(...colours) {
  const [light, dark] = colours
    .map((hex) => {
      const [r, g, b] = hex.match(/[0-9a-f]{2}/gi).map((part) => Number.parseInt(part, 16) / 255)
        .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    })
    .sort((a, b) => b - a);
  return (light + 0.05) / (dark + 0.05);
}

test('in bright sun every word and mark stands out from paper by 7 to 1', () => {
  assert.ok(Math.abs(contrast('#000000', '#FFFFFF') - 21) < 1e-9);
  const css = read('drawings.css') + read('styles/base.css');
  const colour = (name) => css.match(new RegExp(`--${name}:\\s*(#[0-9a-fA-F]{6})`))[1];
  for (const name of ['qw-ink', 'qw-second', 'qw-leaf', 'qw-hold', 'qw-near', 'qw-past', 'qw-hatch', 'plant']) {
    assert.ok(contrast(colour(name), colour('qw-paper')) >= 7, name);
  }
});

test('nothing moves or blinks', () => {
  const styles = readdirSync(new URL('styles/', PHONE)).map((name) => read(`styles/${name}`));
  assert.ok(styles.length > 10);
  for (const css of styles) assert.doesNotMatch(css, /transition|animation|@keyframes|(?<!over)scroll-behavior/);
});
