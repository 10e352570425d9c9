// What can be done with a version from its sheet: begun, thrown away, laid in,
// lifted, moved. Each is one change, together with what is on trial.
import type { Cut, Film, FilmChange, PieceForm, RollLog, Take } from '$lib/api/wire';
import type { CuttingRoom } from './cutting.svelte';
import { formOf } from './pieces';
import { slateOfTake } from './takes_to_lay_in';

/** What the acts need of the film on the bench. */
interface ActsDesk {
  readonly rolls: ReadonlyMap<string, RollLog>;
  film: Film | null;
  cuts: ReadonlyMap<string, Cut>;
  load(): Promise<unknown>;
}

export class CuttingActs {
  /**
   * @param forget the address no longer names the version.
   */
  constructor(
    private readonly room: CuttingRoom,
    private readonly desk: ActsDesk,
    private readonly forget: () => void,
  ) {}

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
  async begin(cut: string, from: string | null): Promise<boolean> {
    const change: FilmChange = { film_change: 'new_cut', cut, from, usual_join: null };
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

  /** Lifts the chosen piece. */
  async lift(): Promise<void> {
    const at = this.room.chosen;
    if (this.room.shown?.pieces[at]) await this.room.make([{ change: 'remove', at }]);
  }

  async move(from: number, to: number): Promise<void> {
    const pieces = this.room.shown?.pieces.length ?? 0;
    if (from === to || from < 0 || from >= pieces || to < 0 || to >= pieces) return;
    await this.room.make([{ change: 'move', from, to }], to);
  }

  private takeHolding(form: PieceForm): Take | undefined {
    const [first, thrown] = [form.in ?? 0, form.out ?? 0];
    const takes = this.desk.rolls.get(form.roll ?? '')?.takes ?? [];
    return takes.find((take) => take.in <= first && thrown <= take.out);
  }
}
