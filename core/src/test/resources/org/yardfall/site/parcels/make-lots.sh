#!/bin/sh
# Makes the lots-* fixtures from a cadastral sheet's parcels (GeoJSON, EPSG:2154, two decimals).
# Usage: make-lots.sh SHEET_PARCELS.geojson SHEET_BUILDINGS.geojson   (needs ogr2ogr, Debian gdal-bin)
set -e
cd "$(dirname "$0")"
rm -f lots*
W="IDU IN ('0040000B0926','0040000B0927','0040000B0875','0040000B0785','0040000B0925','0040000B0924','0040000B0923','0040000B0922','0040000B0921','0040000B0920')"
ogr2ogr -f GeoJSON -where "$W" -lco COORDINATE_PRECISION=2 lots-crs-member.geojson "$1" -nln lots
ogr2ogr -f GeoJSON -lco RFC7946=YES -lco COORDINATE_PRECISION=9 -t_srs OGC:CRS84 lots-lonlat.geojson lots-crs-member.geojson -nln lots
ogr2ogr -f "ESRI Shapefile" lots.shp lots-crs-member.geojson
ogr2ogr -f GPKG lots.gpkg lots-crs-member.geojson -nln parcels --config OGR_CURRENT_DATE 2026-01-01T00:00:00.000Z
ogr2ogr -f GPKG -update lots.gpkg "$2" -nln buildings -limit 3 --config OGR_CURRENT_DATE 2026-01-01T00:00:00.000Z
