/** To be printed wherever the figures are. */
export const cautions: readonly string[] = [
  'Not for navigation, safety, certifying a course, surveying or legal use: follow local rules and licensed practice.',
  'The results speak of these units, on these days, on this route. One run ranks nothing; sensors and their software change.',
  'Do not look at a wrist or a screen in traffic, and keep to lawful ways; where the line asks for what the road forbids, the road is right.',
  'The reference is an authored estimate, not a certified measurement.',
  'Tracks reveal homes: publish only what lies on the route.',
  'Map data and imagery have licences, and some countries have rules on surveying.',
];
