/**
 * Sample sentences of NMEA 0183 with their checksums, as public descriptions of the standard print them again and again
 * (for one: D. DePriest, NMEA data, from memory; the first is also in many a tutorial). Invented by their authors.
 */
export const nmeaSentences = [
  { body: 'GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,', checksum: '47' },
  { body: 'GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W', checksum: '6A' },
  { body: 'GPGSA,A,3,04,05,,09,12,,,24,,,,,2.5,1.3,2.1', checksum: '39' },
  { body: 'GPGSV,2,1,08,01,40,083,46,02,17,308,41,12,07,344,39,14,22,228,45', checksum: '75' },
  { body: 'GPVTG,054.7,T,034.4,M,005.5,N,010.2,K', checksum: '48' },
  { body: 'GPRMB,A,0.66,L,003,004,4917.24,N,12309.57,W,001.3,052.5,000.5,V', checksum: '20' },
  { body: 'GPZDA,201530.00,04,07,2002,00,00', checksum: '60' },
] as const;
