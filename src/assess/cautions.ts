/** To be printed wherever the figures are. */
export const cautions: readonly string[] = [
  'Not for navigation, safety, course certification, surveying or legal use: follow local rules and licensed practice.',
  'The figures speak of these units, on these days, on this route; one run ranks nothing. Sensors and their software change.',
  'The reference is an authored estimate, not a certified measurement.',
  'Do not look at a wrist or a screen in traffic, and keep to lawful ways; where the line asks for what the road forbids, the road is right.',
  'Tracks reveal homes: publish only what lies on the route.',
  'Map data and imagery have licences, and some countries have rules on surveying.',
];
