// Scans drawn by FFmpeg: a test picture with grain, so that no two frames are alike.
import { execFile } from 'node:child_process';
import { promisify } from 'node:util';

const run = promisify(execFile);

export interface Scan {
  readonly width: number;
  readonly height: number;
  readonly rate: number;
  readonly frames: number;
  /** How strong the grain is: with 8 a picture of 960 × 720 weighs some 70 kB in the workprint. */
  readonly grain: number;
}

/** Draws a scan into a file. */
export async function drawScan(file: string, scan: Scan): Promise<void> {
  const { width, height, rate, frames, grain } = scan;
  await run('ffmpeg', [
    ...['-v', 'error', '-f', 'lavfi', '-i', `testsrc2=size=${width}x${height}:rate=${rate}`],
    ...['-vf', `noise=alls=${grain}:allf=t`, '-frames:v', String(frames)],
    ...['-c:v', 'mjpeg', '-q:v', '2', file],
  ]);
}
