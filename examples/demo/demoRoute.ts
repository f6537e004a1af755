import { direct, type Route, routeBuilder } from 'datumline';

/**
 * The demo's line, invented: a loop ride beside a fjord that exists nowhere (the coordinates lie in open sea). The rider
 * keeps to the right of the road; the line is where the wheels went, not the middle of the road.
 */
export function demoRoute(): Route {
  const builder = routeBuilder({ name: 'Fjord-side loop (invented)' });
  let at = [2.1, 61.4];
  let heading = 80;
  builder.start(at);
  const go = (azimuth: number, distance: number) => {
    heading = azimuth;
    at = direct(at, azimuth, distance).position;
    builder.lineTo(at);
  };
  const turn = (side: 'left' | 'right', radius: number, sweep: number) => {
    const sign = side === 'right' ? 1 : -1;
    const steps = Math.ceil(sweep / 6);
    const step = sweep / steps;
    const chord = 2 * radius * Math.sin((step * Math.PI) / 360);
    for (let k = 0; k < steps; k++) {
      go(heading + (sign * step) / 2, chord);
      heading += (sign * step) / 2;
    }
  };
  builder.section('quay', { halfWidth: 5, environment: 'open' });
  go(80, 450);
  turn('left', 3.5, 180);
  go(260, 450);
  builder.section('timber lanes', { halfWidth: 4, environment: 'lane between houses' });
  for (const [azimuth, distance] of [
    [260, 60],
    [350, 80],
    [260, 70],
    [350, 60],
    [80, 90],
    [20, 110],
  ]) {
    go(azimuth, distance);
  }
  builder.section('cliff road', { halfWidth: 6, environment: 'half the sky' });
  go(20, 180);
  turn('right', 120, 70);
  go(90, 150);
  turn('left', 80, 90);
  go(0, 120);
  turn('right', 60, 50);
  go(50, 60);
  builder.section('tunnel', { halfWidth: 6, environment: 'no sky' });
  go(50, 160);
  builder.section('spruce switchbacks', { halfWidth: 5, environment: 'forest' });
  go(50, 80);
  for (const side of ['left', 'right', 'left', 'right'] as const) {
    turn(side, 9, 180);
    go(side === 'left' ? 230 : 50, 100);
  }
  builder.section('sports ground', { halfWidth: 3, environment: 'open' });
  go(20, 60);
  for (const azimuth of [20, 200, 20, 200]) {
    go(azimuth, 84.39);
    turn('left', 36.5, 180);
  }
  return builder.build();
}
