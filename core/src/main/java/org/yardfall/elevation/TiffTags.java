package org.yardfall.elevation;

/** Tags of TIFF 6.0, of the GeoTIFF standard and of GDAL's notes beside them, by number. */
public final class TiffTags {

  static final int SUBFILE_TYPE = 254;
  static final int BITS_PER_SAMPLE = 258;
  static final int COMPRESSION = 259;
  static final int PHOTOMETRIC = 262;
  static final int ORIENTATION = 274;
  static final int SAMPLES_PER_PIXEL = 277;
  static final int SAMPLE_FORMAT = 339;

  /** GeoTIFF: size of a cell along both axes. */
  public static final int PIXEL_SCALE = 33_550;

  /** GeoTIFF: pairs of a place in the raster and a place in the CRS. */
  public static final int TIE_POINTS = 33_922;

  /** GeoTIFF: 4 by 4 matrix from raster to CRS. */
  public static final int TRANSFORMATION = 34_264;

  /** GeoTIFF: the directory of keys. */
  public static final int GEO_KEYS = 34_735;

  /** GeoTIFF: the keys' numbers that are not short. */
  public static final int GEO_DOUBLES = 34_736;

  /** GeoTIFF: the keys' texts. */
  public static final int GEO_TEXTS = 34_737;

  /** GDAL's XML of band notes: scale, offset, unit. */
  public static final int BAND_NOTES = 42_112;

  /** GDAL's NoData value as text. */
  public static final int NO_DATA = 42_113;

  private TiffTags() {}
}
