package org.yardfall.elevation;

import it.geosolutions.imageio.plugins.tiff.BaselineTIFFTagSet;
import it.geosolutions.imageio.plugins.tiff.GeoTIFFTagSet;
import it.geosolutions.imageio.plugins.tiff.PrivateTIFFTagSet;
import it.geosolutions.imageio.plugins.tiff.TIFFField;
import it.geosolutions.imageioimpl.plugins.tiff.TIFFImageMetadata;
import java.awt.geom.AffineTransform;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import org.geotools.coverage.grid.io.imageio.geotiff.GeoTiffIIOMetadataDecoder;
import org.geotools.coverage.grid.io.imageio.geotiff.GeoTiffMetadata2CRSAdapter;
import org.geotools.util.factory.Hints;
import org.yardfall.site.BadInputException;

/**
 * Reads from a TIFF's tags what {@link RasterHeader} needs, by the OGC GeoTIFF Standard 1.1
 * (19-008r4) and, for NoData, scale, offset and unit, by the tags that GDAL writes. Whatever would
 * make the elevations wrong if it were passed over is refused here, before any cell is read.
 */
final class GeoTiffHeader {

  /** Compressions whose cells come back exact, by TIFF code. */
  private static final Set<Integer> READABLE = Set.of(1, 5, 8, 32_773, 32_946, 50_000);

  private static final Map<Integer, String> UNREADABLE =
      Map.of(
          6,
          "JPEG",
          7,
          "JPEG",
          34_887,
          "LERC",
          34_925,
          "LZMA",
          50_001,
          "WebP",
          34_712,
          "JPEG 2000",
          50_002,
          "JPEG XL");

  private static final Map<Integer, String> PICTURES =
      Map.of(
          2,
          "a colour picture",
          3,
          "a picture or classes with a colour table",
          4,
          "a transparency mask",
          5,
          "a colour picture",
          6,
          "a colour picture",
          8,
          "a colour picture");

  private static final double UNIT_TOLERANCE = 1e-9;

  private final Path file;
  private final TIFFImageMetadata tags;
  private final GeoKeys keys;
  private final List<String> warnings = new ArrayList<>();

  GeoTiffHeader(Path file, TIFFImageMetadata tags) {
    this.file = file;
    this.tags = tags;
    this.keys = GeoKeys.of(tags);
  }

  /**
   * The header.
   *
   * @param unwritten number of its strips or tiles that were never written
   * @throws BadInputException that says why the file holds no elevations
   */
  RasterHeader read(int unwritten) {
    int cols = number(BaselineTIFFTagSet.TAG_IMAGE_WIDTH, 0);
    int rows = number(BaselineTIFFTagSet.TAG_IMAGE_LENGTH, 0);
    refusePictures();
    SampleType type = sampleType();
    int compression = number(BaselineTIFFTagSet.TAG_COMPRESSION, 1);
    if (!READABLE.contains(compression)) {
      throw bad(
          "it is compressed with "
              + UNREADABLE.getOrDefault(compression, "a method")
              + " (TIFF compression "
              + compression
              + "), which cannot be read here",
          "convert it, for example: gdal_translate -co COMPRESS=DEFLATE in.tif out.tif");
    }
    if (number(BaselineTIFFTagSet.TAG_PREDICTOR, 1) == 2 && type == SampleType.FLOAT64) {
      throw bad(
          "it is stored as differences (TIFF predictor 2 of 64-bit cells), which cannot be read here",
          "convert it, for example: gdal_translate -co COMPRESS=DEFLATE in.tif out.tif");
    }
    if (number(BaselineTIFFTagSet.TAG_ORIENTATION, 1) != 1) {
      throw bad(
          "its cells are stored turned or mirrored (TIFF orientation "
              + number(BaselineTIFFTagSet.TAG_ORIENTATION, 1)
              + ")",
          "convert it to a plain GeoTIFF");
    }
    Optional<RasterCrs> crs = crs();
    OptionalDouble noData = noData();
    if (unwritten > 0 && noData.isEmpty()) {
      warnings.add(
          unwritten
              + " of its strips or tiles were never written and no NoData value is declared; their cells read"
              + " as 0");
    }
    BandNotes notes = BandNotes.of(file, text(PrivateTIFFTagSet.TAG_GDAL_METADATA));
    return new RasterHeader(
        file,
        cols,
        rows,
        cellToCrs(),
        crs,
        type,
        noData,
        notes.scale(),
        notes.offset(),
        verticalUnit(notes),
        keys.verticalCrs()
            .map(VerticalCrs::datum)
            .or(() -> keys.text(GeoKeys.VERTICAL_CITATION))
            .orElse(""),
        warnings);
  }

  private void refusePictures() {
    String picture = PICTURES.get(number(BaselineTIFFTagSet.TAG_PHOTOMETRIC_INTERPRETATION, 1));
    if (picture != null) {
      throw bad("it is " + picture + ", not elevations", "give a raster of elevations");
    }
    int bands = number(BaselineTIFFTagSet.TAG_SAMPLES_PER_PIXEL, 1);
    if (bands != 1) {
      throw bad(
          "it has " + bands + " bands; a raster of elevations has one",
          "give a file of the elevation band alone, for example: gdal_translate -b 1 in.tif out.tif");
    }
  }

  private SampleType sampleType() {
    int format = number(BaselineTIFFTagSet.TAG_SAMPLE_FORMAT, 1);
    int bits = number(BaselineTIFFTagSet.TAG_BITS_PER_SAMPLE, 1);
    if (format == 5 || format == 6) {
      throw bad("its cells are complex numbers, not elevations", "give a raster of elevations");
    }
    return SampleType.ofTiff(format == 4 ? 1 : format, bits)
        .orElseThrow(
            () ->
                bad(
                    "its cells have "
                        + bits
                        + " bits"
                        + (format == 3 ? " (floating point)" : "")
                        + ", which cannot be read as elevations",
                    "convert it to 32-bit floating point"));
  }

  /** Corner of the first cell at (0, 0); a raster whose places are points is moved half a cell. */
  private AffineTransform cellToCrs() {
    double[] matrix = numbers(GeoTIFFTagSet.TAG_MODEL_TRANSFORMATION);
    double[] scale = numbers(GeoTIFFTagSet.TAG_MODEL_PIXEL_SCALE);
    double[] ties = numbers(GeoTIFFTagSet.TAG_MODEL_TIE_POINT);
    AffineTransform toCrs;
    if (matrix.length == 16) {
      toCrs = new AffineTransform(matrix[0], matrix[4], matrix[1], matrix[5], matrix[3], matrix[7]);
    } else if (scale.length >= 2 && ties.length == 6) {
      if (!(scale[0] > 0 && scale[1] > 0)) {
        throw bad(
            "its cell size " + scale[0] + " x " + scale[1] + " is not positive",
            "write its georeferencing anew");
      }
      toCrs =
          new AffineTransform(
              scale[0],
              0,
              0,
              -scale[1],
              ties[3] - ties[0] * scale[0],
              ties[4] + ties[1] * scale[1]);
    } else if (ties.length > 6) {
      throw bad(
          "it is placed by " + ties.length / 6 + " control points, not by a grid",
          "rectify it first, for example with gdalwarp");
    } else {
      return WorldFile.beside(file)
          .orElseThrow(
              () ->
                  bad(
                      "it does not say where on the ground it lies (no GeoTIFF tags, no world file)",
                      "give a georeferenced raster"));
    }
    if (keys.number(GeoKeys.RASTER_TYPE).orElse(1) == 2) {
      toCrs.translate(-0.5, -0.5);
    }
    if (!(Math.abs(toCrs.getDeterminant()) > 0)) {
      throw bad("its georeferencing gives cells no size", "write its georeferencing anew");
    }
    return toCrs;
  }

  private Optional<RasterCrs> crs() {
    OptionalInt projected = keys.number(GeoKeys.PROJECTED_CRS);
    OptionalInt geodetic = keys.number(GeoKeys.GEODETIC_CRS);
    int model = keys.number(GeoKeys.MODEL_TYPE).orElse(0);
    Optional<RasterCrs> coded = keys.codedCrs(file.toString());
    if (coded.isPresent()) {
      return coded;
    }
    if ((model == 1 && projected.isPresent()) || (model == 2 && geodetic.isPresent())) {
      return Optional.of(userDefinedCrs());
    }
    return SidecarCrs.beside(file);
  }

  private RasterCrs userDefinedCrs() {
    try {
      return RasterCrs.of(
          new GeoTiffMetadata2CRSAdapter(new Hints(Hints.FORCE_LONGITUDE_FIRST_AXIS_ORDER, true))
              .createCoordinateSystem(new GeoTiffIIOMetadataDecoder(tags)),
          file.toString());
    } catch (Exception e) { // the library declares no narrower one
      throw bad(
          "its CRS '"
              + keys.text(GeoKeys.CITATION).orElse("without a name")
              + "' is defined in a way that is not understood",
          "convert it to a CRS with an EPSG code");
    }
  }

  private Optional<VerticalUnit> verticalUnit(BandNotes notes) {
    OptionalInt key = keys.number(GeoKeys.VERTICAL_UNIT);
    Optional<VerticalUnit> found =
        key.isPresent()
            ? VerticalUnit.ofEpsg(key.getAsInt(), "GeoTIFF key 4099")
            : Optional.empty();
    if (found.isEmpty() && GeoKeys.isCode(key)) {
      throw bad(
          "the unit of its elevations, EPSG unit " + key.getAsInt() + ", is not known here",
          "give elevation: vertical-unit");
    }
    found = found.or(() -> keys.verticalCrs().map(VerticalCrs::unit));
    Optional<VerticalUnit> noted = notes.unit();
    if (found.isPresent()
        && noted.isPresent()
        && Math.abs(found.get().metres() / noted.get().metres() - 1) > UNIT_TOLERANCE) {
      warnings.add(
          "the unit of elevations is "
              + found.get().name()
              + " by "
              + found.get().readFrom()
              + " but "
              + noted.get().name()
              + " by "
              + noted.get().readFrom()
              + "; the first is used");
    }
    return found.or(() -> noted);
  }

  private OptionalDouble noData() {
    String text = text(PrivateTIFFTagSet.TAG_GDAL_NODATA).strip();
    if (text.isEmpty()) {
      return OptionalDouble.empty();
    }
    try {
      return OptionalDouble.of(
          text.equalsIgnoreCase("nan") ? Double.NaN : Double.parseDouble(text));
    } catch (NumberFormatException e) {
      throw bad("its NoData value '" + text + "' is no number", "write its NoData value anew");
    }
  }

  private int number(int tag, int otherwise) {
    TIFFField field = tags.getTIFFField(tag);
    return field == null || field.getCount() == 0 ? otherwise : field.getAsInt(0);
  }

  private double[] numbers(int tag) {
    TIFFField field = tags.getTIFFField(tag);
    return field == null ? new double[0] : field.getAsDoubles();
  }

  private String text(int tag) {
    TIFFField field = tags.getTIFFField(tag);
    return field == null || field.getCount() == 0 ? "" : field.getAsString(0);
  }

  private BadInputException bad(String what, String mend) {
    return new BadInputException(file.toString(), what, mend);
  }
}
