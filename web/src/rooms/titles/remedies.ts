// What is changed in a title by each remedy.
import type { Card, Remedy, TitleWords } from './title_types';

/** The part of a title that a remedy for too little contrast changes. */
export function remedied(title: TitleWords, remedy: Remedy): Partial<TitleWords> {
  const { lettering, ground } = title;
  switch (remedy.do) {
    case 'move':
      return { lettering: { ...lettering, down: remedy.down } };
    case 'plate':
      return { lettering: { ...lettering, plate: true } };
    case 'other_ink':
      return { lettering: { ...lettering, dark: !lettering.dark } };
    case 'darken':
      return { ground: { ...ground, darker: ground.darker + remedy.tenths } };
  }
}

/** The height of capitals with which the last row reads small letters; thousandths. */
export function highEnough(letters: NonNullable<Card['letters']>): number | null {
  const [is, needed] = [Number(letters.on_art_mm), Number(letters.needed_on_art_mm)];
  if (!(is > 0) || !(needed > 0)) return null;
  return Math.ceil((letters.capitals * needed) / is);
}
