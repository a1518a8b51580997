#!/bin/sh
# Makes proj-points.csv: longitude and latitude (WGS 84) by PROJ of points of several projected CRSs.
# Needs gdaltransform (Debian gdal-bin; PROJ 9.1 without grids was used).
while read -r crs e n; do
  echo "$crs,$e,$n,$(echo "$e $n" | gdaltransform -s_srs "$crs" -t_srs OGC:CRS84 -output_xy | tr ' ' ',')"
done <<POINTS > "$(dirname "$0")/proj-points.csv"
EPSG:26915 500012.4 4999981.0
EPSG:26915 260000 3400000
EPSG:32633 500000 4999981
EPSG:32633 780000 6200000
EPSG:32756 334000 6252000
EPSG:25832 600000 5700000
EPSG:6344 480000 4990000
EPSG:2154 652000 6862000
EPSG:2154 900000 6300000
EPSG:3794 564146 100500
EPSG:2193 1600000 5400000
EPSG:2225 6500000 2000000
EPSG:2263 980000 200000
EPSG:6529 1700000 900000
EPSG:3857 -10350000 5650000
POINTS
