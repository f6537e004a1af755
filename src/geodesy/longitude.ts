/** The same meridian within [-180, 180). */
export function wrapLongitude(longitude: number): number {
  if (longitude >= -180 && longitude < 180) return longitude;
  const wrapped = longitude - 360 * Math.floor((longitude + 180) / 360);
  return wrapped < 180 ? wrapped : -180;
}

/** The same meridian as `longitude`, within 180° of `near`: keeps a line's longitudes continuous across ±180°. */
export function unwrapLongitude(longitude: number, near: number): number {
  return longitude - 360 * Math.round((longitude - near) / 360);
}
