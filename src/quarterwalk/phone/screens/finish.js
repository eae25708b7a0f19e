/** Close the walk: what is missing is said first. */
import { html, nothing } from '../vendor/lit-html.js';
import { icon } from '../drawings/icon.js';
import { common, finish as words, standing as standingWords } from '../words.js';
import { frame, list, mainButton, plainButton, section, sideButton } from './frame.js';
import { outcomes } from './outcomes.js';

export function finish(view, act) {
  const whole = view.missing.length === 0;
  return frame(view, {
    name: 'finish',
    title: words.title,
    subtitle: `${view.field} · ${common.plants({ count: view.plants })}`,
    back: { act: () => act.back() },
    body: html`
      <section class="part">
        <h2 class="large">${whole ? words.whole : words.short}</h2>
        ${whole ? nothing : list(view.missing, 'open-points')}
        ${(view.words ?? []).map((line) => html`<p>${line}</p>`)}
      </section>
      ${view.lean ? section(standingWords.leaning, outcomes(view.lean, { filled: false })) : nothing}
      <section class="part">
        <p>${words.after}</p>
        ${plainButton(words.hand, () => act.handOver(), { sign: icon('on') })}
      </section>`,
    foot: view.full
      ? html`${sideButton(words.goOn, () => act.back())}${mainButton(words.close, () => act.close())}`
      : html`${sideButton(words.close, () => act.close())}${mainButton(words.goOn, () => act.back())}`,
  });
}
