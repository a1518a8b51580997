#!/bin/sh
# Times the water stage and scikit-image's fill of the same ground on this machine, one after the
# other, and prints how many times as fast, warm (JMH, compiled) and cold (the first call in a new
# Java); how both grow from 1 million cells; and reading the ground as a GeoTIFF beside GDAL's own
# read. Needs Maven, JDK 17, GDAL's tools, and Python 3 with scikit-image. ROUNDS="-wi 2 -i 2" makes
# it shorter.
#
#   core/src/test/scripts/benchmark-fill.sh [CELLS_A_SIDE...]     (default 4000: 16 million cells)
set -eu
[ $# -gt 0 ] || set -- 4000
sides=1000
for side; do [ "$side" = 1000 ] || sides="$sides,$side"; done
root=$(cd "$(dirname "$0")/../../../.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$root"
mvn -q -B -Pquick -pl core test-compile dependency:build-classpath -Dmdep.outputFile="$work/classpath" \
    -Dmdep.includeScope=test
classes="core/target/test-classes:core/target/classes:$(cat "$work/classpath")"
# shellcheck disable=SC2086
java -cp "$classes" org.openjdk.jmh.Main WaterBenchmark -p side="$sides" ${ROUNDS:-} -rf json \
    -rff "$work/warm.json" > "$work/jmh.log" || { cat "$work/jmh.log"; exit 1; }
java -cp "$classes" org.openjdk.jmh.Main "WaterBenchmark.(fill|whole)" -p side="$sides" -wi 0 -i 1 -f 3 \
    -rf json -rff "$work/cold.json" > "$work/jmh.log" || { cat "$work/jmh.log"; exit 1; }
for side; do
  java -Xmx4g -cp "$classes" org.yardfall.benchmark.FractalGround "$work/ground" "$side"
  cat > "$work/ground.vrt" <<END
<VRTDataset rasterXSize="$side" rasterYSize="$side"><SRS>EPSG:26915</SRS>
<GeoTransform>500000,1,0,5000000,0,-1</GeoTransform>
<VRTRasterBand dataType="Float32" band="1" subClass="VRTRawRasterBand">
<SourceFilename relativeToVRT="1">ground</SourceFilename><ImageOffset>0</ImageOffset>
<PixelOffset>4</PixelOffset><LineOffset>$((side * 4))</LineOffset><ByteOrder>LSB</ByteOrder>
</VRTRasterBand></VRTDataset>
END
  gdal_translate -q -co COMPRESS=DEFLATE -co TILED=YES "$work/ground.vrt" "$work/ground.tif"
  java -Xmx4g -Dcom.sun.media.jai.disableMediaLib=true -cp "$classes" \
      org.yardfall.benchmark.ReadTime "$work/ground.tif" > "$work/read"
  ${PYTHON:-/usr/bin/python3} core/src/test/scripts/benchmark_fill.py "$work/ground" "$side" \
      "$work/warm.json" "$work/cold.json" "$work/ground.tif" "$work/read"
done
