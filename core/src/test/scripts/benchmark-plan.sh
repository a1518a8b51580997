#!/usr/bin/env bash
# Cold starts of the packaged command, in seconds and in times of a Java that says its version on the
# same machine: the plan of the sample, and that of an invented lot of one hectare at cells of 0.25 m.
# Usage, from the top of the repository and on an idle machine: benchmark-plan.sh [RUNS]
set -eu
runs=${1:-5}
command=cli/target/yardfall/bin/yardfall
dir=$(mktemp -d)
trap 'rm -rf "$dir"' EXIT

awk 'BEGIN {
  n = 680; cell = 0.25
  print "ncols", n; print "nrows", n; print "xllcorner 500000"; print "yllcorner 4999000"
  print "cellsize", cell; print "NODATA_value -9999"
  for (r = 0; r < n; r++) {
    y = (n - r - 0.5) * cell
    for (c = 0; c < n; c++) {
      x = (c + 0.5) * cell
      noise = (noise * 1103 + 12345 + c) % 65536
      z = 240 + 0.006 * y - 0.004 * x + 0.12 * sin(x / 11) * sin(y / 13) + 0.00000045 * noise
      d = (x - 80) ^ 2 + (y - 95) ^ 2
      printf "%.3f ", d < 900 ? z - 0.25 * (1 - d / 900) : z
    }
    print ""
  }
}' > "$dir/ground.asc"
box() {
  printf '{"type":"Feature","properties":{"LOT":"%s"},"geometry":{"type":"Polygon",' "$1"
  printf '"coordinates":[[[%s,%s],[%s,%s],[%s,%s],[%s,%s],[%s,%s]]]}}' \
    "$2" "$3" "$4" "$3" "$4" "$5" "$2" "$5" "$2" "$3"
}
layer() {
  printf '{"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"EPSG:26915"}},'
  printf '"features":[%s]}' "$1"
}
layer "$(box 1 500035 4999035 500135 4999135),$(box 2 500035 4999135 500135 4999165)" \
  > "$dir/lots.geojson"
layer "$(box h 500070 4999055 500090 4999070)" > "$dir/house.geojson"
cat > "$dir/site.yml" <<'SITE'
site:      { name: One hectare (invented), crs: EPSG:26915 }
elevation: { files: [ground.asc], vertical-unit: m, crs: EPSG:26915 }
parcels:   { file: lots.geojson, id: LOT, lot: "1" }
buildings: { file: house.geojson }
outlets:
  - { id: D1, kind: ditch, at: [500138, 4999031], invert: 238.2 m }
SITE

# median COMMAND...: wall time in milliseconds of the median run
median() {
  for _ in $(seq "$runs"); do
    rm -rf "$dir/out"
    start=$(date +%s%N)
    "$@" > "$dir/log" 2>&1
    end=$(date +%s%N)
    echo $(((end - start) / 1000000))
  done | sort -n | sed -n "$(((runs + 1) / 2))p"
}
java=$(median java -version)
sample=$(median "$command" plan samples/fernhill/site.yml --quiet --out "$dir/out")
hectare=$(median "$command" plan "$dir/site.yml" --quiet --out "$dir/out")
awk -v j="$java" -v s="$sample" -v h="$hectare" 'BEGIN {
  printf "java -version    %6.2f s\n", j / 1000
  printf "plan, sample     %6.2f s  %6.1f times\n", s / 1000, s / j
  printf "plan, 1 hectare  %6.2f s  %6.1f times\n", h / 1000, h / j
}'
