// The strip to scale: where the picture and the holes lie on the film, for
// whoever draws it. Seen through the base, heads up; down is forward.

const PLACES = [
  'beside_picture',
  'edge_on_frame_line',
  'centre_on_frame_line',
  'four_both_edges',
] as const;

/** Where a gauge has its holes. */
export type HolePlace = (typeof PLACES)[number];

/** The measures of a gauge as the server gives them. Unit: millimetres. */
export interface GaugeGeometry {
  readonly width_mm: number;
  readonly pitch_mm: number;
  readonly picture: { readonly w: number; readonly h: number; readonly left: number };
  /** Null where nobody has measured one yet. */
  readonly hole: {
    readonly w: number;
    readonly h: number;
    readonly edge: number;
    readonly radius: number;
  } | null;
  readonly place: HolePlace;
}

/** The same as it comes in a document of the server, whose place is a plain word. */
export interface GaugeWords extends Omit<GaugeGeometry, 'hole' | 'place'> {
  readonly hole?: GaugeGeometry['hole'];
  readonly place: string;
}

/** The geometry out of a document of the server; a place that we cannot draw is refused. */
export function geometryFrom(words: GaugeWords): GaugeGeometry {
  const { width_mm, pitch_mm, picture, hole } = words;
  const place = PLACES.find((each) => each === words.place);
  if (!place) throw new RangeError(`holes at a place that cannot be drawn: ${words.place}`);
  return { width_mm, pitch_mm, picture, hole: hole ?? null, place };
}

/** A rectangle. Unit: px, from the left edge of the film and the top of what is drawn. */
export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/** One frame of film at a scale, from frame line to frame line. */
export interface StripLayout {
  /** Unit: px per mm. */
  readonly scale: number;
  readonly width: number;
  /** From one frame line to the next. */
  readonly pitch: number;
  /** The picture inside its frame. */
  readonly picture: Rect;
  /** The holes of one frame; those on the frame line above begin before y = 0. */
  readonly holes: readonly Rect[];
  readonly radius: number;
  /** Whether the holes lie on the frame lines, so that n frames have n + 1 rows of them. */
  readonly onFrameLine: boolean;
  /** Too small for single holes: draw a plain row. */
  readonly plain: boolean;
  /** The main stripe, on the edge away from the holes. */
  readonly stripe: Rect;
}

/** Scales of the screens. Unit: px per mm. */
export const SCALE = { loupe: 42, frameCard: 36, atBreak: 15, hanging: 7 } as const;

/** Below this, holes are a plain row. Unit: px per mm. */
export const SINGLE_HOLES_FROM = 5;

/** The main stripe of magnetic oxide. Unit: mm. */
const STRIPE_MM = 0.7;

function centred(outer: number, inner: number): number {
  return (outer - inner) / 2;
}

function holesOfFrame(geometry: GaugeGeometry, bothEdges: boolean): Rect[] {
  const hole = geometry.hole;
  if (!hole) return [];
  const at = (x: number, y: number): Rect => ({ x, y, w: hole.w, h: hole.h });
  const far = geometry.width_mm - hole.edge - hole.w;
  const sides = bothEdges ? [hole.edge, far] : [hole.edge];
  switch (geometry.place) {
    case 'beside_picture':
      return sides.map((x) => at(x, centred(geometry.pitch_mm, hole.h)));
    case 'edge_on_frame_line':
      return sides.map((x) => at(x, -hole.h / 2));
    case 'centre_on_frame_line':
      return [at(centred(geometry.width_mm, hole.w), -hole.h / 2)];
    case 'four_both_edges': {
      const step = geometry.pitch_mm / 4;
      const rows = [0, 1, 2, 3].map((row) => row * step + centred(step, hole.h));
      return [hole.edge, far].flatMap((x) => rows.map((y) => at(x, y)));
    }
  }
}

function enlarged(rect: Rect, scale: number): Rect {
  return { x: rect.x * scale, y: rect.y * scale, w: rect.w * scale, h: rect.h * scale };
}

/** One frame at so many px per mm. 16 mm may have holes on both edges. */
export function stripLayout(
  geometry: GaugeGeometry,
  scale: number,
  edges: 'one' | 'both' = 'one',
): StripLayout {
  const { width_mm, pitch_mm, picture, place } = geometry;
  const drawn = { x: picture.left, y: centred(pitch_mm, picture.h), w: picture.w, h: picture.h };
  const stripe = { x: width_mm - STRIPE_MM, y: 0, w: STRIPE_MM, h: pitch_mm };
  return {
    scale,
    width: width_mm * scale,
    pitch: pitch_mm * scale,
    picture: enlarged(drawn, scale),
    holes: holesOfFrame(geometry, edges === 'both').map((hole) => enlarged(hole, scale)),
    radius: (geometry.hole?.radius ?? 0) * scale,
    onFrameLine: place === 'edge_on_frame_line' || place === 'centre_on_frame_line',
    plain: scale < SINGLE_HOLES_FROM,
    stripe: enlarged(stripe, scale),
  };
}

/** The height of so many frames. */
export function stripHeight(layout: StripLayout, frames: number): number {
  return frames * layout.pitch;
}

/** All holes of a strip; those cut through at either end stick out and are to be clipped. */
export function stripHoles(layout: StripLayout, frames: number): Rect[] {
  const rows = layout.onFrameLine ? frames + 1 : frames;
  return Array.from({ length: rows }, (_, row) => row).flatMap((row) =>
    layout.holes.map((hole) => ({ ...hole, y: hole.y + row * layout.pitch })),
  );
}

/** The columns that holes stand in, each as wide as a hole: for the plain row. */
export function holeColumns(layout: StripLayout): { x: number; w: number }[] {
  const seen = new Map(layout.holes.map((hole) => [hole.x, { x: hole.x, w: hole.w }]));
  return [...seen.values()];
}

/** The picture's true shape, width by height. */
export function pictureShape(geometry: GaugeGeometry): { w: number; h: number } {
  return { w: geometry.picture.w, h: geometry.picture.h };
}

/** The scale at which film is so many px wide. */
export function scaleForWidth(geometry: GaugeGeometry, px: number): number {
  return px / geometry.width_mm;
}
