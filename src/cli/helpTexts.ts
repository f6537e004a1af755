import { cautions } from '../assess/cautions';

/** What `--help` prints, for the whole and for each command. */
export const helpTexts: Readonly<
  Record<'' | 'assess' | 'combine' | 'page' | 'plan' | 'route' | 'snap' | 'test', string>
> = {
  '': `datumline: judge GNSS recordings against the line really travelled

  datumline assess ROUTE RECORDING... --out DIR   how far each strayed, section by section; report and files in DIR
  datumline assess TEST.json --out DIR            the same for a whole test of several runs, described in one file
  datumline page --out FILE                       a page that does it all without a command: draw, drop, read
  datumline combine --ndjson < LINES              what many runs say together, route by route
  datumline test FOLDER --route FILE              writes such a file, guessed from the recordings in a folder
  datumline plan --sigma M --difference M …       what a test could find, before anything is carried
  datumline route FILE                            length, sections and warnings of an authored line
  datumline snap ROUTE RECORDING                  along-track and cross-track of every fix, as a table

ROUTE is a recipe (JSON), a GeoJSON FeatureCollection drawn in a map editor, or the one line of a GPX or KML file.
RECORDING is a GPX, TCX, KML, KMZ, FIT, NMEA, CSV or GeoJSON file, gzipped or not; the content decides, not the name.

  datumline COMMAND --help                        options and examples of one command
  datumline --version

Exit status: 0 done, 1 could not (the reason is on standard error), 2 wrong usage, 3 done, but something was left out or
a recording was cut off, 130 interrupted. Files are written whole or not at all.

${cautions[0]}
`,

  assess: `datumline assess ROUTE RECORDING... --out DIR
datumline assess TEST.json --out DIR
datumline assess --ndjson < LINES

Places every recording on the route and writes into DIR (created if missing):

  report.html       one page for people: what is sure and what isn't, table, map, strip charts; opens from disk
  assessment.json   every figure, its method and its inputs' hashes; numbered where there are several runs
  summary.json      with several runs: what they say together, the run as the unit
  rows.csv          the figures as a table
  places.geojson    the route, its sections and the numbered worst places, for a map

A recording that cannot be read or placed is left out; the others stand. It is named on standard error and in the report. One
that is cut off is used up to there, which is said too. In either case the exit status is 3. Files that an earlier run wrote into
DIR and this one doesn't are removed, unless changed since.

  --out DIR         where to write
  --baseline NAME   compare with this receiver alone (or recording, where no receiver is stated): fewer comparisons to
                    correct for; in a test file "options": {"baseline": NAME}, which this overrides
  --truth FILE      a recording of the true place by the second, from a survey-grade receiver carried along: also write
                    by-time.json and by-time.csv, errors ahead and behind, delays and outages, and show them in the report; in
                    a test file "truth": FILE of a run (by-time-1.json …, and what the runs say together)
  --areas FILE      polygons (GeoJSON) that the recorded lines are judged by, each with the properties "area" (a name) and
                    "kind": allowed (a roadway, a path) or impossible (a house, water); in a test file "areas": FILE
  --surroundings FILE
                    lines and polygons (GeoJSON) drawn under the plan and the numbered places, in tones by the property "kind"
                    (way, house, water, green), ways labelled by "name"; the file states its "licence"; in a test file
                    "surroundings": FILE
  --table wide      also write stretches.csv: a row for each stretch, the figures of each receiver beside each other
  --fixes           also write fixes.csv: a row for each fix on the route, with its receiver, run, position and place, to be
                    joined with video or other tools; times count from the first of them in the run
  --times absolute  with --fixes: times of day, in UTC
  --pictures KIND   also write pictures to publish, svg or png: plan, strip, distribution, place-1 …, stretch-1-NAME …;
                    png needs the package @resvg/resvg-js (npm install @resvg/resvg-js) and a font on this machine
  --theme THEME     of the pictures: light (default) or dark
  --width PIXELS    of the pictures (default: 1600)
  --zone ZONE       time zone of times that state none: Z, +02:00, or a name of the time zone database
  --threads N       number of worker threads; 1 does everything in one (default: 1 up to 24 MB of recordings, then one per
                    processor: each thread takes 0.65 s to start, so a few recordings are done sooner without)
  --ndjson          one JSON object in on each line of standard input, one out on standard output, in the same order:
                    {"route": FILE, "recording": FILE, "receiver"?, "placement"?, "run"?, "zone"?}, or several that are compared,
                    {"route": FILE, "recordings": [{"recording": FILE, "receiver"?, …}, …]}, or {"test": FILE or a test itself}.
                    Out comes the same object with its number, "line", and "rows", "excursions" and "warnings"; of several "pairs"
                    and "order" too, and of several runs a "summary"; or with "error", and then the exit status is 3. A line
                    may have "areas", FILE or the GeoJSON itself; then "passages" come out too. Your own other keys are kept.
                    With --out FILE the answers are in that file, all or none
  --figures         with --ndjson: answer with "figures", which datumline combine --ndjson takes, in place of all these

A test file names the route, and for each run its recordings with receiver and placement; a decoy or centreline; areas; stretches to
leave out; options. File names in it are relative to it. Its schema is dist/schemas/testFile.json in this package.

Examples:
  datumline assess route.json a.gpx b.gpx c.fit --out result
  datumline assess drawn.geojson recordings/*.gpx --zone +02:00 --out result
  datumline assess spring-test.json --out result
  datumline assess route.json a.gpx b.fit --truth survey.nmea --out result
  datumline assess route.json a.gpx b.fit --areas roadways-and-houses.geojson --out result
  datumline assess route.json reference.gpx new.fit other.gpx --baseline reference --out result
  find recordings -name '*.gpx' | jq -Rc '{route: "route.json", recording: .}' | datumline assess --ndjson > out.ndjson
`,

  combine: `datumline combine --ndjson < LINES

Reads assessments, one a line, and writes what their runs say together, the run as the unit: a summary a route, one a line, named
by "hash" in its "route". In place of an assessment stands what is needed of it, an answer of "assess --ndjson --figures". The
order of the lines changes nothing, nor how they are grouped. A line that is neither is answered with its number and "error"; the
others stand, and the exit status is 3.

  --out FILE        write there instead, all or nothing
  --baseline NAME   compare with this receiver alone (default: the baseline of the assessments, if they have one)

Examples:
  datumline assess --ndjson --figures < tests.ndjson | datumline combine --ndjson > summaries.ndjson
  cat part-*.ndjson | datumline combine --ndjson --out summaries.ndjson
`,

  page: `datumline page --out FILE
datumline page --serve

One HTML file on which the whole job is done in a browser: draw the line or open it, drop recordings, read the report, and save
all of it as a zip whose test.json "datumline assess" takes. It opens from disk, works without a network and makes no request.
What is open in it is kept in that browser until "Forget everything" is pressed there.

  --out FILE        write it there
  --serve           offer it to this machine alone, at an address that is printed, until Ctrl+C. Browsers keep things by
                    address, and the port is another one each time: what is to be there tomorrow, keep with --out

Examples:
  datumline page --out page.html
  datumline page --serve
`,

  plan: `datumline plan --sigma M --correlation-time S --seconds S --difference M [--receivers N] [--runs N]

The chance that a test finds that one receiver lies so much further off than another, corrected over all pairs; how many runs it
takes to find it four times in five; and the smallest difference that is found so often.

  --sigma M              scatter of a receiver's offsets from the line, standard deviation in metres
  --correlation-time S   seconds after which 1/e of an error is left: "correlationTime" in an earlier assessment
  --seconds S            seconds spent on the stretch in a run
  --difference M         metres by which one receiver's mean distance is greater than the others'
  --receivers N          carried at once (default: 2)
  --runs N               times that the stretch is travelled (default: 1)
  --between-runs M       spread of a receiver's mean distance between runs beyond what its scatter explains (default: 0)
  --lever-arm M          no smaller difference is claimed (default: 0.5)

Examples:
  datumline plan --sigma 5 --correlation-time 30 --seconds 600 --difference 3
  datumline plan --sigma 5 --correlation-time 30 --seconds 600 --difference 3 --receivers 3 --runs 3
`,

  route: `datumline route FILE
datumline route --draft RECORDING... --out FILE

Reads an authored line and prints its length, sections, marks and warnings: what to check before the first ride.
FILE is a recipe (JSON), a GeoJSON FeatureCollection drawn in a map editor, or the one line of a GPX or KML file.

  --draft           the files are recordings of one way: draft a first line from them, in few vertices, to be corrected in a
                    map editor (--out draft.geojson); until then assess gives no side and no verdict on these recordings
  --out FILE        also write it, in the format of the file extension: .json (recipe), .geojson, .gpx or .kml

Examples:
  datumline route drawn.geojson
  datumline route drawn.geojson --out route.json
  datumline route --draft recordings/*.gpx --out draft.geojson
  datumline route route.json --out route.gpx
`,

  snap: `datumline snap ROUTE RECORDING
datumline snap --ndjson < LINES

Places every fix of a recording on the route, by order, time and direction of motion, and prints one row per fix as CSV.

Positions are given only for fixes on the route, and times count from the first fix: both may be passed on. A recording that is
cut off is used up to there, which is said on standard error; the exit status is 3.

  --out FILE        write there instead: .csv, or .geojson with what was recorded on the route, for a map
  --times absolute  give the times of day as well, in UTC
  --zone ZONE       time zone of times that state none: Z, +02:00, or a name of the time zone database
  --threads N       with --ndjson: number of worker threads (default: 1, then one per processor after about a second)
  --ndjson          one JSON object in on each line of standard input: {"route": FILE, "recording": FILE, "zone"?}; the same object
                    out, with its number, "line", and the columns "alongTrack", "crossTrack", "distance", "segment", "state",
                    "confidence" and "ambiguous" (null where a fix is not on the route), or with "error", and then the exit status
                    is 3. With --out FILE the answers are in that file, all or none

Examples:
  datumline snap route.json ride.gpx > ride.csv
  datumline snap route.json ride.fit --out ride.geojson
`,

  test: `datumline test FOLDER --route FILE

Writes a test file for the recordings in FOLDER and in the folders in it. It is guessed, so look it through. Receivers are guessed
from the names, leaving out numbers, dates and words such as "run". Runs are guessed from the times: recordings made at the same
time are one run. Where there are no times, folders or the numbers in the names tell. Each guess is printed.

  --route FILE      the line travelled: a recipe, a drawn GeoJSON, or the one line of a GPX or KML file
  --out FILE        where to write (default: FOLDER/test.json)
  --overwrite       replace a file that is there already
  --zone ZONE       time zone of times that state none: Z, +02:00, or a name of the time zone database; stated for the files that need it

Examples:
  datumline test recordings --route drawn.geojson
  datumline test recordings --route drawn.geojson --zone +02:00 --out spring-test.json
`,
};
