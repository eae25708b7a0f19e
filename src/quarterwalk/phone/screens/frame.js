/** What every screen shares: a header, one main part, and the acts at the thumb. */
import { html, nothing } from '../vendor/lit-html.js';
import { icon } from '../drawings/icon.js';
import { common } from '../words.js';

/**
 * Lay a screen out.
 * @param {object} view demo and notice are read from it
 * @param {object} parts name, title, subtitle, back {act, label}, aside, strips, body, foot
 */
export function frame(view, parts) {
  const { name, title, subtitle = nothing, back, aside = nothing, strips = nothing, body, foot } = parts;
  return html`<div class="frame"><div class="screen screen-${name}">
    <header class="head">
      ${back ? backButton(back) : nothing}
      <div class="head-words">
        <h1 tabindex="-1">${title}${view.demo ? html` <small class="tag">${common.demo}</small>` : nothing}</h1>
        <p>${subtitle}</p>
      </div>
      ${aside}
    </header>
    <main class="main">
      ${view.notice
        ? html`<p class="notice" role="status">${icon('look')}<span>${view.notice}</span></p>`
        : nothing}
      ${strips}
      <div class="body">${body}</div>
      ${foot ? html`<div class="foot">${foot}</div>` : nothing}
    </main>
  </div></div>`;
}

const backButton = ({ act, label = common.back }) =>
  html`<button type="button" class="head-act back" aria-label=${label} @click=${act}>${icon('back')}</button>`;

/** The one filled button of a screen. */
export function mainButton(label, act, { sub = nothing, still = false, resting = false, kind = '', form } = {}) {
  return html`<button type=${form ? 'submit' : 'button'} form=${form ?? nothing} class="main-button ${kind}"
    ?disabled=${still} aria-disabled=${resting ? 'true' : nothing} @click=${act ?? nothing}>
    <span class="main-words">${label}</span>
    ${sub === nothing ? nothing : html`<span class="main-sub">${sub}</span>`}
  </button>`;
}

/** The outlined button beside it. */
export function sideButton(label, act, { still = false, name = nothing, sign = nothing } = {}) {
  return html`<button type="button" class="side-button" aria-label=${name} ?disabled=${still} @click=${act}>
    ${sign}<span>${label}</span>
  </button>`;
}

/** A button in the running page. */
export function plainButton(label, act, { still = false, sign = nothing } = {}) {
  return html`<button type="button" class="plain-button" ?disabled=${still} @click=${act}>
    ${sign}<span>${label}</span>
  </button>`;
}

/** Lines of text, one below the other. */
export const list = (lines, kind = '') =>
  lines.length ? html`<ul class="lines ${kind}">${lines.map((line) => html`<li>${line}</li>`)}</ul>` : nothing;

/** A heading with what belongs to it; nothing where there is nothing to say. */
export const section = (heading, inside) =>
  inside === nothing || inside === '' ? nothing : html`<section class="part"><h2>${heading}</h2>${inside}</section>`;
