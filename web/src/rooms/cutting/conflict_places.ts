// At which joins a conflict or a question of the strand check is seen.
import type { Conflict, Cut, Question } from '$lib/api/wire';
import { isShot } from './pieces';

/** The joins at which a conflict is seen: those that bound the frames it names. */
export function joinsOfConflict(conflict: Conflict, cut: Cut): number[] {
  const found = new Set<number>();
  const { span } = conflict;
  for (const position of conflict.positions) {
    const at = position - 1;
    const piece = cut.pieces[at];
    if (!span || !isShot(piece) || piece.roll !== span.roll) continue;
    if (span.in <= piece.in && piece.in < span.out) found.add(at - 1);
    if (span.in < piece.out && piece.out <= span.out) found.add(at);
    // A bite lies just outside the piece whose join eats.
    if (span.out === piece.in) found.add(at - 1);
    if (span.in === piece.out) found.add(at);
  }
  if (found.size === 0) found.add(fallbackJoin(conflict));
  return [...found].sort((one, other) => one - other);
}

function fallbackJoin(conflict: Conflict): number {
  const [first, second] = conflict.positions;
  if (first === undefined) return -1;
  // Of two neighbours their join, of one piece the join before it.
  return second === first + 1 ? first - 1 : first - 2;
}

/**
 * Where the pencil rings a conflict: at the end of a piece that shows the frames,
 * and not above the first row, where the sheet has no line, if it can be helped.
 */
export function ringOfConflict(conflict: Conflict, cut: Cut): number {
  const { span } = conflict;
  const all = joinsOfConflict(conflict, cut);
  const onLines = all.filter((join) => join >= 0);
  const joins = onLines.length > 0 ? onLines : all;
  const shows = joins.find((join) => {
    const into = cut.pieces[join + 1];
    return (
      span && isShot(into) && into.roll === span.roll && span.in <= into.in && into.in < span.out
    );
  });
  return shows ?? joins[0] ?? -1;
}

/** Whether a conflict is of one of the two pieces that a join joins. */
export function isOfPieceAt(conflict: Conflict, join: number): boolean {
  return conflict.positions.includes(join + 1) || conflict.positions.includes(join + 2);
}

/** The join at which a question is asked: where the later of its pictures comes in. */
export function joinOfQuestion(question: Question): number {
  const { positions } = question;
  const [first = 1] = positions;
  const last = positions.at(-1) ?? first;
  return last === first ? first - 1 : last - 2;
}
