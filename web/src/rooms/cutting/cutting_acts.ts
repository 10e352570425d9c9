// What can be done with a version from its sheet: begun, thrown away, laid in,
// lifted, moved. Each is one change, together with what is on trial.
import type { Cut, Film, FilmChange, PieceForm, RollLog, Take } from '$lib/api/wire';
import type { CuttingRoom } from './cutting.svelte';
import { HeldPieces, joinedBy, lifted, movedToLine, placesAtLine } from './held_pieces.svelte';
import { formOf, isShot } from './pieces';
import { slateOfTake } from './takes_to_lay_in';

/** What the acts need of the film on the bench. */
interface ActsDesk {
  readonly rolls: ReadonlyMap<string, RollLog>;
  film: Film | null;
  cuts: ReadonlyMap<string, Cut>;
  load(): Promise<unknown>;
}

export class CuttingActs {
  readonly held: HeldPieces;

  /**
   * @param forget the address no longer names the version.
   * @param renamed the address names the version otherwise.
   */
  constructor(
    private readonly room: CuttingRoom,
    private readonly desk: ActsDesk,
    private readonly forget: () => void,
    private readonly renamed: (cut: string) => void = () => {},
  ) {
    this.held = new HeldPieces(room);
  }

  /** Where a piece is laid in: behind the chosen one; before all at the head leader. */
  get place(): number {
    const { room } = this;
    return !room.shown?.pieces.length || room.join < 0 ? 0 : room.chosen + 1;
  }

  /** Lays pieces in, one behind the other; without a version in the first there is. */
  async layIn(forms: readonly PieceForm[]): Promise<void> {
    const { room } = this;
    if (!room.kept && !(await this.begin('v1', null))) return;
    const at = this.place;
    const changes = forms.map((form, row) => {
      const take = this.takeHolding(form);
      const slate = form.slate ?? (take ? slateOfTake(take) || null : null);
      return { change: 'insert' as const, at: at + row, piece: formOf({ ...form, slate }) };
    });
    await room.make(changes, at + forms.length - 1);
  }

  /** Begins a version and lays it on the sheet. */
  begin(cut: string, from: string | null): Promise<boolean> {
    return this.beginBy({ film_change: 'new_cut', cut, from, usual_join: null }, cut);
  }

  /** Begins a version with every circled take in script order. */
  assemble(cut: string): Promise<boolean> {
    return this.beginBy({ film_change: 'new_cut', cut, assembled: true }, cut);
  }

  /** Gives a version another name or another note. */
  async describe(cut: string, name: string, note: string): Promise<boolean> {
    const change: FilmChange = { film_change: 'describe_cut', cut, name, note };
    if (!(await this.room.makeOfFilm(change))) return false;
    await this.desk.load();
    if (name !== cut && this.room.version === cut) await this.room.open(name);
    this.renamed(name);
    return true;
  }

  private async beginBy(change: FilmChange, cut: string): Promise<boolean> {
    if (!(await this.room.makeOfFilm(change))) return false;
    await this.desk.load();
    await this.room.open(cut);
    return true;
  }

  async throwAway(cut: string): Promise<void> {
    if (!(await this.room.makeOfFilm({ film_change: 'remove_cut', cut }))) return;
    // What is gone is taken off the bench at once, and not asked for when the change is heard of.
    const { desk } = this;
    desk.cuts = new Map([...desk.cuts].filter(([name]) => name !== cut));
    const { film } = desk;
    if (film) desk.film = { ...film, cuts: film.cuts.filter((one) => one.cut !== cut) };
    this.forget();
    await desk.load();
  }

  /** Another take stands where the chosen piece stood, with its join and its note. */
  async another(form: PieceForm): Promise<void> {
    const at = this.room.chosen;
    const piece = this.room.shown?.pieces[at];
    if (!piece) return;
    const { join, note } = piece;
    const other = formOf({ ...form, join: join ?? null, note: note ?? '' });
    await this.room.make([{ change: 'replace', at, piece: other }], at);
  }

  /** Makes two pieces of one that run on into each other; the second begins at this frame. */
  async divide(at: number, frame: number): Promise<boolean> {
    const piece = this.room.shown?.pieces[at];
    if (!isShot(piece) || frame <= piece.in || frame >= piece.out) return false;
    const form = formOf(piece);
    const changes = [
      // The join after it belongs to the second part, the note to the first.
      { change: 'replace' as const, at, piece: { ...form, out: frame, join: null } },
      { change: 'insert' as const, at: at + 1, piece: { ...form, in: frame, note: '' } },
    ];
    return this.room.make(changes, at + 1);
  }

  /** Lifts what is held: the chosen piece, or several. */
  async lift(): Promise<void> {
    const { places } = this.held;
    if (places.length === 0) return;
    if (await this.room.make(lifted(places), places[0])) this.held.letGo();
  }

  /** Brings what is held so many places up or down, together. */
  async move(by: 1 | -1): Promise<void> {
    const { places } = this.held;
    const [first, last] = [places[0], places.at(-1)];
    if (first === undefined || last === undefined) return;
    await this.moveToLine(places, by < 0 ? first - 1 : last + 2);
  }

  /** A row was put down at a line: with it whatever is held together with it. */
  async drop(row: number, line: number): Promise<void> {
    await this.moveToLine(this.held.has(row) ? this.held.places : [row], line);
  }

  /** Gives what is held another join after it; null for the usual one. */
  async joinBy(join: string | null): Promise<void> {
    const changes = joinedBy(this.room.shown?.pieces ?? [], this.held.places, join);
    if (changes.length > 0) await this.room.make(changes);
  }

  private async moveToLine(places: readonly number[], line: number): Promise<void> {
    const pieces = this.room.shown?.pieces.length ?? 0;
    if (line < 0 || line > pieces) return;
    const changes = movedToLine(places, line);
    if (changes.length === 0) return;
    const stand = placesAtLine(places, line);
    if (await this.room.make(changes, stand[0])) this.held.follow(stand);
  }

  private takeHolding(form: PieceForm): Take | undefined {
    const [first, thrown] = [form.in ?? 0, form.out ?? 0];
    const takes = this.desk.rolls.get(form.roll ?? '')?.takes ?? [];
    return takes.find((take) => take.in <= first && thrown <= take.out);
  }
}
