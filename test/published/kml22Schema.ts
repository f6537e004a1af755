/**
 * Content models of OGC KML 2.2 (07-147r2; schema http://schemas.opengis.net/kml/2.2.0/ogckml22.xsd) for the elements that
 * are written: what may stand in each, in order, `*` any number of times. No schema is shipped, as it draws in others (Atom,
 * xAL) whose terms are not stated, so that written files are not validated: this is a structural check. Placemark, Data and
 * LineString were compared with the schema's text, the others are from memory; a feature's other elements, which are not
 * written, are left out.
 */
export const kml22Schema = {
  namespace: 'http://www.opengis.net/kml/2.2',
  content: {
    kml: ['Document'],
    Document: ['name', 'ExtendedData', 'Schema*', 'Placemark*'],
    Placemark: ['name', 'description', 'ExtendedData', 'LineString|Point|MultiGeometry'],
    ExtendedData: ['Data*', 'SchemaData*'],
    Data: ['displayName', 'value'],
    MultiGeometry: ['LineString*'],
    Point: ['extrude', 'altitudeMode', 'coordinates'],
    LineString: ['extrude', 'tessellate', 'altitudeMode', 'coordinates'],
  },
  attributes: { Data: ['name'] },
  leaves: {
    altitudeMode: /^(clampToGround|relativeToGround|absolute)$/,
    'Point coordinates': /^-?\d+(\.\d+)?,-?\d+(\.\d+)?(,-?\d+(\.\d+)?)?$/,
    // tuples of two or three numbers parted by commas, two tuples at least, parted by blanks
    coordinates: /^(-?\d+(\.\d+)?,-?\d+(\.\d+)?(,-?\d+(\.\d+)?)?)( -?\d+(\.\d+)?,-?\d+(\.\d+)?(,-?\d+(\.\d+)?)?)+$/,
  },
} as const;
