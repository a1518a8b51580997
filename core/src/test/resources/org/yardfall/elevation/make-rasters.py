"""Makes the rasters of this folder and what GDAL reads in them.

    python3 make-rasters.py LIDAR.tif

LIDAR.tif: the 1 m terrain model named in NOTICE. Needs GDAL 3.6 with its Python binding and numpy.
"""
import os
import sys

import numpy as np
from osgeo import gdal, osr
from PIL import Image, TiffImagePlugin

gdal.UseExceptions()
HERE = os.path.dirname(os.path.abspath(__file__))
SIZE = 48


def path(name):
    return os.path.join(HERE, name)


def translate(name, src, **options):
    gdal.Translate(path(name), src, **options)
    aux = path(name) + ".aux.xml"
    if os.path.exists(aux):
        os.remove(aux)


def crs(code):
    srs = osr.SpatialReference()
    srs.SetFromUserInput(code)
    srs.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
    return srs.ExportToWkt()


def create(name, array, gdal_type, transform, code, options=(), nodata=None, unit=None):
    ds = gdal.GetDriverByName("GTiff").Create(
        path(name), array.shape[1], array.shape[0], 1, gdal_type, options=list(options))
    if transform:
        ds.SetGeoTransform(transform)
    if code:
        ds.SetProjection(crs(code))
    band = ds.GetRasterBand(1)
    if nodata is not None:
        band.SetNoDataValue(nodata)
    if unit:
        band.SetUnitType(unit)
    band.WriteArray(array)
    ds = None


def expect(name, of):
    """GDAL's reading: geotransform, then the cells row by row (scale and offset applied)."""
    ds = gdal.Open(path(of))
    band = ds.GetRasterBand(1)
    z = band.ReadAsArray().astype("float64")
    z = z * (band.GetScale() or 1) + (band.GetOffset() or 0)
    with open(path(name), "w") as f:
        f.write(" ".join(repr(v) for v in ds.GetGeoTransform()) + "\n")
        for row in z:
            f.write(" ".join("%.9g" % v for v in row) + "\n")


# One crop of real ground in many encodings.
lidar = gdal.Translate("", sys.argv[1], format="MEM", srcWin=[400, 400, SIZE, SIZE])
translate("plain.tif", lidar)
expect("plain.txt", "plain.tif")
for name, options in {
    "lzw_pred3_tiled.tif": ["COMPRESS=LZW", "PREDICTOR=3", "TILED=YES", "BLOCKXSIZE=16", "BLOCKYSIZE=16"],
    "lzw_strips.tif": ["COMPRESS=LZW", "BLOCKYSIZE=5"],
    "zstd_pred3.tif": ["COMPRESS=ZSTD", "PREDICTOR=3"],
    "bigtiff_deflate.tif": ["BIGTIFF=YES", "COMPRESS=DEFLATE", "PREDICTOR=2"],
    "big_endian.tif": ["ENDIANNESS=BIG"],
    "packbits.tif": ["COMPRESS=PACKBITS"],
    "lerc.tif": ["COMPRESS=LERC"],
}.items():
    translate(name, lidar, creationOptions=options)
translate("cog_deflate.tif", lidar, format="COG",
          creationOptions=["COMPRESS=DEFLATE", "BLOCKSIZE=128", "OVERVIEW_COUNT=1"])
translate("float64.tif", lidar, outputType=gdal.GDT_Float64, creationOptions=["COMPRESS=DEFLATE"])
point = gdal.Translate("", lidar, format="MEM")
point.SetMetadataItem("AREA_OR_POINT", "Point")
translate("pixel_is_point.tif", point)
translate("world_file.tif", lidar, creationOptions=["PROFILE=BASELINE", "TFW=YES"])
translate("grid.asc", lidar, format="AAIGrid", creationOptions=["DECIMAL_PRECISION=2"])

z = lidar.GetRasterBand(1).ReadAsArray()
t = lidar.GetGeoTransform()
create("no_crs.tif", z, gdal.GDT_Float32, t, None)
south_up = (t[0], t[1], 0, t[3] + t[5] * SIZE, 0, -t[5])
create("south_up.tif", z[::-1], gdal.GDT_Float32, south_up, "EPSG:3794")
# The same 8 by 8 cells in every codec with every predictor; 64-bit floats with differences.
for codec in ("DEFLATE", "LZW", "ZSTD"):
    for predictor in (1, 2, 3):
        options = ["COMPRESS=" + codec, "PREDICTOR=%d" % predictor]
        create("small_%s_pred%d.tif" % (codec.lower(), predictor), z[:8, :8], gdal.GDT_Float32, t,
               "EPSG:3794", options)
create("small_lzw_pred2_float64.tif", z[:8, :8], gdal.GDT_Float64, t, "EPSG:3794",
       ["COMPRESS=LZW", "PREDICTOR=2"])

hole = z.copy()
hole[10:14, 20:26] = -9999
create("hole_undeclared.tif", hole, gdal.GDT_Float32, t, "EPSG:3794")
create("hole_declared.tif", hole, gdal.GDT_Float32, t, "EPSG:3794", nodata=-9999)
nan = hole.copy()
nan[hole == -9999] = np.nan
create("hole_nan.tif", nan, gdal.GDT_Float32, t, "EPSG:3794", nodata=float("nan"))
huge = hole.copy()
huge[hole == -9999] = np.float32(-3.4028235e38)
create("hole_huge.tif", huge, gdal.GDT_Float32, t, "EPSG:3794", nodata=-3.4e38)
cast = hole.copy()
cast[hole == -9999] = np.float32(-3.4e38)
create("hole_huge_cast.tif", cast, gdal.GDT_Float32, t, "EPSG:3794", nodata=-3.4e38)

# The same ground stored as whole decimetres and centimetres.
translate("decimetres.tif", gdal.Translate("", lidar, format="MEM", outputType=gdal.GDT_Int16,
          scaleParams=[[0, 1000, 0, 10000]]), creationOptions=["COMPRESS=DEFLATE"])
ds = gdal.Open(path("decimetres.tif"), gdal.GA_Update)
ds.GetRasterBand(1).SetScale(0.1)
ds = None
expect("decimetres.txt", "decimetres.tif")
create("centimetres.tif", np.rint(z * 100).astype("uint16"), gdal.GDT_UInt16, t, "EPSG:3794")

# The same ground on another CRS, as GDAL warps it (bilinear).
gdal.Warp(path("degrees.tif"), lidar, dstSRS="EPSG:4326", resampleAlg="bilinear",
          creationOptions=["COMPRESS=DEFLATE"], dstNodata=-9999)
gdal.Warp(path("mercator.tif"), lidar, dstSRS="EPSG:3857", resampleAlg="bilinear",
          creationOptions=["COMPRESS=DEFLATE"], dstNodata=-9999)

# The same ground on UTM cells of 1 m, exact transform (only the reading is kept).
gdal.Warp(path("utm.tif"), lidar, dstSRS="EPSG:32633", resampleAlg="bilinear", errorThreshold=0,
          outputBounds=[564380, 5145056 - 49, 564380 + 49, 5145056], width=49, height=49,
          dstNodata=-9999)
expect("utm.txt", "utm.tif")
os.remove(path("utm.tif"))

# A plane z = 100 + x/50 in feet: US survey, international; vertical unit from three places.
ramp = np.tile((100 + np.arange(12) * 0.2).astype("float32"), (8, 1))
feet = (2000000.0, 10.0, 0, 500000.0, 0, -10.0)
create("us_feet_compound.tif", ramp, gdal.GDT_Float32, feet, "EPSG:2903+6360")
create("us_feet_band_metres.tif", ramp, gdal.GDT_Float32, feet, "EPSG:2903", unit="metre")
create("international_feet.tif", ramp, gdal.GDT_Float32, feet, "EPSG:2994")
create("metres_band_us_feet.tif", ramp, gdal.GDT_Float32, (500000.0, 10.0, 0, 5000000.0, 0, -10.0),
       "EPSG:26915", unit="US survey foot")

# What must be refused, or taken with a word.
utm = (500000.0, 1.0, 0, 5000000.0, 0, -1.0)
create("complex.tif", ramp.astype("complex64"), gdal.GDT_CFloat32, utm, "EPSG:26915")
create("rotated.tif", ramp, gdal.GDT_Float32, (500000.0, 0.8, 0.6, 5000000.0, 0.6, -0.8), "EPSG:26915")
plane = np.add.outer(np.arange(8) * 0.02, 240 + np.arange(8) * 0.1).astype("float32")
create("sheared.tif", plane, gdal.GDT_Float32, (500000.0, 1.0, 0.5, 5000000.0, 0, -1.0), "EPSG:26915")
# GDAL writes no orientation tag, so this one is written by Pillow.
tags = TiffImagePlugin.ImageFileDirectory_v2()
for tag, kind, value in (
        (274, 3, 4), (33550, 12, (1.0, 1.0, 0.0)), (33922, 12, (0.0, 0.0, 0.0, 500000.0, 5000000.0, 0.0)),
        (34735, 3, (1, 1, 0, 3, 1024, 0, 1, 1, 1025, 0, 1, 1, 3072, 0, 1, 26915))):
    tags.tagtype[tag] = kind
    tags[tag] = value
Image.fromarray(plane, mode="F").save(path("mirrored.tif"), tiffinfo=tags)
create("oblong.tif", ramp, gdal.GDT_Float32, (500000.0, 1.0, 0, 5000000.0, 0, -2.0), "EPSG:26915")
create("all_nodata.tif", np.full((8, 12), -9999, "float32"), gdal.GDT_Float32, utm, "EPSG:26915", nodata=-9999)
rgb = gdal.GetDriverByName("GTiff").Create(path("picture.tif"), 12, 8, 3, gdal.GDT_Byte)
rgb.SetGeoTransform(utm)
rgb.SetProjection(crs("EPSG:26915"))
rgb = None
huge = gdal.GetDriverByName("GTiff").Create(
    path("sparse.tif"), 60000, 60000, 1, gdal.GDT_Float32,
    options=["SPARSE_OK=TRUE", "TILED=YES", "BLOCKXSIZE=8192", "BLOCKYSIZE=8192"])
huge.SetGeoTransform(utm)
huge.SetProjection(crs("EPSG:26915"))
huge.GetRasterBand(1).SetNoDataValue(-9999)
huge = None
# Masked cells: the mask of a file is NoData too.
gdal.SetConfigOption("GDAL_TIFF_INTERNAL_MASK", "YES")
create("masked.tif", ramp, gdal.GDT_Float32, utm, "EPSG:26915")
ds = gdal.Open(path("masked.tif"), gdal.GA_Update)
ds.CreateMaskBand(gdal.GMF_PER_DATASET)
mask = np.full((8, 12), 255, "uint8")
mask[2:4, 5:9] = 0
ds.GetRasterBand(1).GetMaskBand().WriteArray(mask)
ds = None
# A body that is not the Earth.
create("moon.tif", ramp, gdal.GDT_Float32, utm,
       'PROJCS["Moon",GEOGCS["Moon",DATUM["Moon",SPHEROID["Moon",1737400,0]],PRIMEM["Reference",0],'
       'UNIT["degree",0.0174532925199433]],PROJECTION["Equirectangular"],'
       'PARAMETER["standard_parallel_1",0],PARAMETER["central_meridian",0],UNIT["metre",1]]')
for name in os.listdir(HERE):
    if name.endswith(".aux.xml"):
        os.remove(path(name))
