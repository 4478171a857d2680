// Enter as a measuring instrument that acts as a keyboard sends it behind every number: on to the next empty place, and
// only from the last one, or from an empty one, to the end of the form.
import { isBlank } from '../calc/typed_number';

export function goToNextBlank(event: KeyboardEvent): void {
  const here = event.target;
  if (event.key !== 'Enter' || !(here instanceof HTMLInputElement) || here.inputMode !== 'decimal') return;
  if (isBlank(here.value)) return;
  const places = [...(here.form?.querySelectorAll<HTMLInputElement>('input[inputmode=decimal]') ?? [])];
  const next = places.slice(places.indexOf(here) + 1).find((place) => isBlank(place.value));
  if (!next) return;
  event.preventDefault();
  next.focus();
}
