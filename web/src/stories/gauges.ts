// The gauges that the stories draw; the page gets them from the server.
// Source: the gauge table of the look, section 4; regular 8 mm's left edge is
// the drawn picture set beside its hole.

import type { GaugeGeometry } from '$lib/film/gauge_geometry';

export const SUPER_8: GaugeGeometry = {
  width_mm: 7.976,
  pitch_mm: 4.234,
  picture: { w: 5.79, h: 4.01, left: 1.46 },
  hole: { w: 0.914, h: 1.143, edge: 0.51, radius: 0.13 },
  place: 'beside_picture',
};

export const REGULAR_8: GaugeGeometry = {
  width_mm: 7.975,
  pitch_mm: 3.81,
  picture: { w: 4.8, h: 3.5, left: 2.85 },
  hole: { w: 1.83, h: 1.27, edge: 0.91, radius: 0.25 },
  place: 'edge_on_frame_line',
};

export const NINE_FIVE: GaugeGeometry = {
  width_mm: 9.5,
  pitch_mm: 7.54,
  picture: { w: 8.5, h: 6.5, left: 0.5 },
  hole: null,
  place: 'centre_on_frame_line',
};

export const SIXTEEN: GaugeGeometry = {
  width_mm: 15.95,
  pitch_mm: 7.62,
  picture: { w: 10.26, h: 7.49, left: 2.845 },
  hole: { w: 1.83, h: 1.27, edge: 0.91, radius: 0.25 },
  place: 'edge_on_frame_line',
};
