import { type Route, routeBuilder } from 'datumline';

/**
 * The demo's line, invented: a loop ride beside a fjord that exists nowhere (the coordinates lie in open sea). The rider
 * keeps to the right of the road; the line is where the wheels went, not the middle of the road.
 */
export function demoRoute(): Route {
  return routeBuilder({ name: 'Fjord-side loop (invented)', cornerRadius: 3, lateral95: 0.6 })
    .start([2.1, 61.4])
    .provenance({ source: 'invented for this demo', date: '2030-05-01', licence: 'MIT', frame: 'WGS 84' })
    .section('quay', { halfWidth: 5, environment: 'open' })
    .outAndBack((out) => out.lineBy({ azimuth: 80, distance: 450 }), { returnBeside: { side: 'left', metres: 7 } })
    .section('timber lanes', { halfWidth: 4, environment: 'lane between houses' })
    .mark('foot of the lanes')
    .lineBy({ azimuth: 260, distance: 60 })
    .lineBy({ azimuth: 350, distance: 80 })
    .lineBy({ azimuth: 260, distance: 70 })
    .lineBy({ azimuth: 350, distance: 60 })
    .lineBy({ azimuth: 80, distance: 90 })
    .lineBy({ azimuth: 20, distance: 110 })
    .section('cliff road', { halfWidth: 6, environment: 'half the sky' })
    .lineBy({ azimuth: 20, distance: 180 })
    .arc({ turn: 'right', radius: 120, sweep: 70 })
    .lineBy({ azimuth: 90, distance: 150 })
    .arc({ turn: 'left', radius: 80, sweep: 90 })
    .lineBy({ azimuth: 0, distance: 120 })
    .arc({ turn: 'right', radius: 60, sweep: 50 })
    .lineBy({ azimuth: 50, distance: 60 })
    .section('tunnel', { halfWidth: 6, environment: 'no sky' })
    .lineBy({ azimuth: 50, distance: 160 })
    .section('spruce switchbacks', { halfWidth: 5, environment: 'forest' })
    .mark('tunnel end')
    .lineBy({ azimuth: 50, distance: 80 })
    .arc({ turn: 'left', radius: 9, sweep: 180 })
    .lineBy({ azimuth: 230, distance: 100 })
    .arc({ turn: 'right', radius: 9, sweep: 180 })
    .lineBy({ azimuth: 50, distance: 100 })
    .arc({ turn: 'left', radius: 9, sweep: 180 })
    .lineBy({ azimuth: 230, distance: 100 })
    .arc({ turn: 'right', radius: 9, sweep: 180 })
    .lineBy({ azimuth: 50, distance: 120 })
    .mark('gate of the sports ground')
    .laps(2, (lap) =>
      lap
        .section('sports ground', { halfWidth: 3, environment: 'open' })
        .lineBy({ azimuth: 20, distance: 84.39 })
        .arc({ turn: 'left', radius: 36.5, sweep: 180 })
        .lineBy({ azimuth: 200, distance: 84.39 })
        .arc({ turn: 'left', radius: 36.5, sweep: 180 }),
    )
    .build();
}
