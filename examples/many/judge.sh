#!/usr/bin/env bash
# Judges every line of LINES with GNU parallel, then what the runs say together.
#
#   judge.sh LINES.ndjson OUT [options of parallel: --jobs 8, --sshlogin a,b …]
#
# Called again after a breakdown it does what is missing and no more: OUT/joblog tells which blocks are done, and a part is there
# whole or not at all. LINES must be the same then, BLOCK too. Over ssh, OUT and the recordings are in a folder that all see.
set -euo pipefail
lines=$1
mkdir -p "$2/parts"
out=$(realpath "$2")
shift 2
export DATUMLINE=${DATUMLINE:-datumline}
# status 3: some lines could not be judged, which their answers say; to do them again would change nothing
parallel --pipe -N "${BLOCK:-100}" --joblog "$out/joblog" --resume-failed --retries 3 --env DATUMLINE "$@" \
  "\"\$DATUMLINE\" assess --ndjson --figures --threads 1 --out $(printf %q "$out")/parts/{#}.ndjson || [ \$? -eq 3 ]" \
  <"$lines"
[ -n "$(ls "$out/parts")" ] || { echo "judge.sh: $lines: there is no line in it" >&2; exit 1; }
cat "$out"/parts/*.ndjson | "$DATUMLINE" combine --ndjson --out "$out/summaries.ndjson"
