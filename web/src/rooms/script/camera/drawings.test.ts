import { describe, expect, it } from 'vitest';
import { depthRuler } from './depth_ruler';
import { sunArc } from './sun_arc';

describe('the ruler of depth', () => {
  it('goes from the camera outward and has room for its words', () => {
    for (const [near, focus, far] of [
      [1105, 2000, 10513],
      [445, 1000, null],
      [2416, 3000, 3957],
      [3740, 4000, 4298],
      [96, 100, 104],
    ] as const) {
      const ruler = depthRuler(near, focus, far);
      const places = [ruler.from, ruler.at(near), ruler.at(focus), ruler.at(far), ruler.to];
      places.slice(1).forEach((place, at) => {
        expect(place).toBeGreaterThanOrEqual(places[at] ?? 0);
      });
      expect(ruler.at(near) - ruler.from).toBeGreaterThan(20);
      const written = ruler.ticks.filter((tick) => tick.words !== '').map((t) => ruler.at(t.mm));
      written.slice(1).forEach((x, at) => expect(x - (written[at] ?? 0)).toBeGreaterThan(30));
      if (far === null) expect(ruler.at(null)).toBe(ruler.to);
    }
  });
});

describe('the way of the sun', () => {
  const at = (hour: string, azimuth: number, altitude: number) => ({ hour, azimuth, altitude });

  it('lies between its rise and its set, on the rim there', () => {
    const arc = sunArc([
      at('5:30', 85, -5),
      at('6:30', 95, 5),
      at('12:00', 180, 50),
      at('17:30', 265, 5),
      at('18:30', 275, -5),
    ]);
    const places = [...arc.line.matchAll(/[ML](-?[\d.]+),(-?[\d.]+)/g)].map((one) => [
      Number(one[1]),
      Number(one[2]),
    ]);
    expect(places).toHaveLength(5);
    const [rise, , noon, , set] = places;
    expect(Math.hypot(rise?.[0] ?? 0, rise?.[1] ?? 0)).toBeCloseTo(100, 0);
    expect(rise?.[0]).toBeGreaterThan(99);
    expect(set?.[0]).toBeLessThan(-99);
    // South is below, and half-way up stands half-way in.
    expect(noon?.[0]).toBeCloseTo(0);
    expect(noon?.[1]).toBeCloseTo((40 / 90) * 100, 0);
    expect(arc.hours.map((hour) => hour.words)).toEqual(['12']);
  });

  it('is nowhere in a polar night', () => {
    expect(sunArc([at('0:00', 0, -20), at('12:00', 180, -2)]).line).toBe('');
  });

  it('goes on over midnight where the sun stays up', () => {
    const arc = sunArc([at('0:00', 0, 2), at('12:00', 180, 40), at('24:00', 0, 2)]);
    expect(arc.line.match(/M/g)).toHaveLength(1);
    expect(arc.hours.map((hour) => hour.words)).toEqual(['0', '12']);
  });
});
