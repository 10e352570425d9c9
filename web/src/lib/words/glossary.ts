// What the words of the trade mean, for those who meet them here first. One
// or two sentences each, no word of the trade explained by another unexplained.

const GLOSSARY = {
  bite: 'The frames that a join eats: they are under the neighbour or cut away, and nobody sees them again.',
  break: 'The place between two frames where one take ends and the next begins.',
  'camera original':
    'The very film that ran through the camera. There is no second one, so it is cut last and only once.',
  'camera stop': 'Where the camera was halted. The two takes touch there without any join.',
  'card to shoot':
    'A title that is not photographed yet. It keeps its place in the cut as so many empty frames.',
  cement:
    'A join in which a thin tongue of one piece is melted onto the other. It holds for decades and eats a frame.',
  certificate:
    'The outcome of the strand check: for each roll what is used, what the joins eat and what is left.',
  circled: 'Liked on the day. On paper a ring is drawn round the name of the take.',
  conflict: 'A place where the cut cannot be made as it stands, and by how many frames it fails.',
  cut: 'The film in the order in which it will run. Also the act of the blade.',
  'cutting sheet': 'The cut on paper, one row for each piece, with its frames and its length.',
  emulsion: 'The dull side of the film, which carries the picture. The other side is shiny.',
  'feet and frames':
    'The usual measure of film: whole feet, then the frames left over. 37 ft 60 is 37 feet and 60 frames.',
  'flash frame':
    'The first frame of a take, too bright because the camera was not yet up to speed.',
  fog: 'Stray light on the film. It mostly spoils the first and the last turns of a roll.',
  frame: 'One picture on the film.',
  'frame line': 'The dark bar between one picture and the next. Film is cut along it.',
  'frame name':
    'The roll and the number of the frame, such as R2·547. No other picture has the same name.',
  gauge: 'The kind of film by its width and its holes: Super 8, regular 8, 9.5 or 16.',
  handle:
    'Frames of a take before or after the part in use. They are what a cut can still be moved by.',
  hold: 'A take kept in reserve. Of a title: how long it stands on the screen.',
  join: 'Where two ends of film are put together, with tape, cement or by welding.',
  leader: 'Film without a picture, for threading and to protect what follows.',
  missing: 'A frame that the scan jumped over. It is on the film, so it keeps its number.',
  ng: 'No good. You say so; the program never does.',
  outs: 'Takes and parts of takes that are not in the cut.',
  pace: 'How long the pieces stand on the screen, taken together.',
  perforation: 'The hole by which the film is moved on.',
  piece: 'One row of the cutting sheet: some frames of a roll, some leader, or a card to shoot.',
  pin: 'A peg in the bin where a strip hangs until its turn comes.',
  pitch: 'The distance from one hole to the next. Old film shrinks, and the pitch with it.',
  proved:
    'The scan was shown to hold every frame of the roll, because its count agrees with the length on the bench.',
  'pull list': 'What to take from which roll, in which order, and how to find it by counting.',
  remedy: 'A change that makes the cut possible again. It was tried before it is offered.',
  reversal:
    'Film that becomes the finished picture itself, with no negative and so no second copy.',
  roll: 'Film as it left the camera, its frames counted from the head.',
  scan: 'The file or the pictures that were made from the film. It is only read, never changed.',
  scar: 'A frame on which the join can be seen, though it is not eaten.',
  setup: 'One place of the camera. A letter behind the number of the scene names it.',
  sign: 'Something measured that may be a fault, such as a hair or soft focus. Whether it is one, you say.',
  slate: 'The name of a take: scene, letter of the setup, number of the take, such as 3A-T2.',
  speed: 'How many frames run in a second when the film is shown.',
  strand: 'All the film of this production, every frame of it once.',
  'strand check':
    'The proof that the cut can be made from the film there is, or by how little it fails.',
  strip: 'A length of film as one holds it in the hand.',
  take: 'What the camera shot from one start to the next stop.',
  tape: 'A join under a patch of clear tape. It eats no frame and can be taken apart again.',
  tongue: 'The frame that a cement join lays under its neighbour.',
  trim: 'What is cut off a take of which another part is in the cut.',
  version: 'A cut kept under its own name, so that another can be tried beside it.',
  weld: 'A join in which the two ends are cut on a slant and melted together, edge to edge.',
  workprint:
    'Small pictures made from the scan, to look at and to cut with. They can be made again.',
} as const;

/** A word whose meaning can be opened on the word itself. */
export type TermName = keyof typeof GLOSSARY;

/** What a word of the trade means. */
export function meaningOf(term: TermName): string {
  return GLOSSARY[term];
}

/** All words, in the order of the alphabet. */
export const terms: readonly TermName[] = (Object.keys(GLOSSARY) as TermName[]).sort((a, b) =>
  a.localeCompare(b, 'en'),
);
