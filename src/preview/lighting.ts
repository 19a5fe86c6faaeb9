/** What a row and the plate say of one measure is lit on both while the pointer or the focus rests on either. */
export function lightMeasures(page: Document): void {
  for (const [into, out] of [
    ['pointerover', 'pointerout'],
    ['focusin', 'focusout'],
  ] as const) {
    page.addEventListener(into, (event) => light(page, measureAt(event), true));
    page.addEventListener(out, (event) => light(page, measureAt(event), false));
  }
}

function light(page: Document, measure: string | null, on: boolean): void {
  if (measure === null) return;
  const name = CSS.escape(measure);
  for (const one of page.querySelectorAll(`.plate [data-measure="${name}"], tr[data-measure="${name}"]`))
    one.classList.toggle('is-lit', on);
}

const measureAt = ({ target }: Event): string | null =>
  (target instanceof Element && target.closest('[data-measure]')?.getAttribute('data-measure')) || null;
