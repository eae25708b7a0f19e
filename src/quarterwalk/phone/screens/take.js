/** Go on with a walk that another phone began. */
import { html, nothing } from '../vendor/lit-html.js';
import { icon } from '../drawings/icon.js';
import { common, take as words } from '../words.js';
import { frame, list, mainButton, section, sideButton } from './frame.js';
import { lines } from './handover.js';

export function take(view, act) {
  return frame(view, {
    name: 'take',
    title: words.title,
    subtitle: view.field,
    back: { act: () => act.back() },
    body: html`
      <section class="part"><h2 class="large">${words.question(view)}</h2></section>
      ${view.fault ? html`<p class="fault" role="alert">${icon('look')}<span>${view.fault}</span></p>` : nothing}
      ${section(words.soFar, list(lines(view.counts), 'plain'))}`,
    foot: html`${sideButton(common.back, () => act.back())}
      ${mainButton(words.act, () => act.take(), { still: Boolean(view.fault) })}`,
  });
}
