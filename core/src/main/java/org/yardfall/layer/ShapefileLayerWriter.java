package org.yardfall.layer;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import org.h2gis.functions.io.dbf.internal.DbaseFileException;
import org.h2gis.functions.io.dbf.internal.DbaseFileHeader;
import org.h2gis.functions.io.dbf.internal.DbaseFileWriter;
import org.h2gis.functions.io.shp.internal.ShapeType;
import org.h2gis.functions.io.shp.internal.ShapefileWriter;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.yardfall.site.WorkingCrs;

/**
 * Writes a layer as a shapefile in the working CRS: {@code .shp}, {@code .shx}, {@code .dbf},
 * {@code .prj} and {@code .cpg}. Text is UTF-8, cut at {@value LayerSet#SHAPEFILE_TEXT_BYTES} bytes
 * between characters; exterior rings run clockwise; a missing number is blank.
 */
public final class ShapefileLayerWriter {

  /** Width of a number; a value that needs more cannot come from a site on Earth. */
  private static final int NUMBER_WIDTH = 18;

  private static final int INTEGER_WIDTH = 9;

  /** Date of the last change in every table, so that the same input gives the same bytes. */
  private static final byte[] FIXED_DATE = {100, 1, 1};

  private static final int DATE_AT = 1;

  /** No language in the table's header: the {@code .cpg} file tells the encoding. */
  private static final byte[] LANGUAGE_BY_CPG = {0};

  private static final int LANGUAGE_AT = 29;

  /** Where a shapefile's header holds the extent: x and y, then the elevations. */
  private static final int BOUNDS_AT = 36;

  private final Placement placement;
  private final String prj;

  /** A writer of layers whose coordinates are metres of the working plane. */
  public ShapefileLayerWriter(WorkingCrs crs) {
    this.placement = Placement.inWorkingCrs(crs);
    this.prj = PrjText.of(crs.crs());
  }

  /** Writes the layer's five files into a folder. */
  public void write(Layer layer, Path folder) throws IOException {
    writeShapes(layer, folder);
    Path table = folder.resolve(layer.name() + ".dbf");
    writeTable(layer, table);
    patch(table, DATE_AT, FIXED_DATE);
    patch(table, LANGUAGE_AT, LANGUAGE_BY_CPG);
    Files.writeString(folder.resolve(layer.name() + ".prj"), prj);
    Files.writeString(folder.resolve(layer.name() + ".cpg"), "UTF-8");
  }

  private void writeShapes(Layer layer, Path folder) throws IOException {
    ShapeType type = type(layer.shape());
    Path shpFile = folder.resolve(layer.name() + ".shp");
    Path shxFile = folder.resolve(layer.name() + ".shx");
    Envelope extent = new Envelope();
    try (FileChannel shp = create(shpFile);
        FileChannel shx = create(shxFile)) {
      ShapefileWriter writer = new ShapefileWriter(shp, shx);
      writer.writeHeaders(type);
      for (Feature feature : layer.features()) {
        Geometry shape = shape(placement.apply(feature.geometry()));
        extent.expandToInclude(shape.getEnvelopeInternal());
        writer.writeGeometry(shape);
      }
      writer.writeHeaders(type); // again, now that the length is known
      writer.close();
    }
    patch(shpFile, BOUNDS_AT, bounds(layer, extent));
    patch(shxFile, BOUNDS_AT, bounds(layer, extent));
  }

  /**
   * The part of the header that the driver leaves blank: elevations, and an empty file's extent.
   */
  private static byte[] bounds(Layer layer, Envelope extent) {
    DoubleSummaryStatistics z =
        layer.features().stream()
            .filter(feature -> layer.shape().hasZ())
            .flatMap(feature -> Arrays.stream(feature.geometry().getCoordinates()))
            .mapToDouble(Coordinate::getZ)
            .summaryStatistics();
    ByteBuffer bounds = ByteBuffer.allocate(6 * Double.BYTES).order(ByteOrder.LITTLE_ENDIAN);
    boolean none = extent.isNull();
    bounds.putDouble(none ? 0 : extent.getMinX()).putDouble(none ? 0 : extent.getMinY());
    bounds.putDouble(none ? 0 : extent.getMaxX()).putDouble(none ? 0 : extent.getMaxY());
    boolean flat = z.getCount() == 0;
    bounds.putDouble(flat ? 0 : z.getMin()).putDouble(flat ? 0 : z.getMax());
    return bounds.array();
  }

  private static FileChannel create(Path file) throws IOException {
    return FileChannel.open(
        file, StandardOpenOption.CREATE_NEW, StandardOpenOption.READ, StandardOpenOption.WRITE);
  }

  private static Geometry shape(Geometry geometry) {
    if (geometry instanceof LineString line) {
      return geometry.getFactory().createMultiLineString(new LineString[] {line});
    }
    return geometry.getDimension() == 2 ? geometry.norm() : geometry;
  }

  private static ShapeType type(Layer.Shape shape) {
    return switch (shape) {
      case POINT -> ShapeType.POINT;
      case POINT_Z -> ShapeType.POINTZ;
      case LINE -> ShapeType.ARC;
      case LINE_Z -> ShapeType.ARCZ;
      case AREA -> ShapeType.POLYGON;
    };
  }

  private static void writeTable(Layer layer, Path file) throws IOException {
    try (FileChannel channel = create(file)) {
      // The driver pads text by characters; handing it UTF-8 bytes as Latin-1 characters makes the
      // two the same.
      DbaseFileWriter writer =
          new DbaseFileWriter(header(layer), channel, StandardCharsets.ISO_8859_1);
      for (Feature feature : layer.features()) {
        writer.write(row(layer.fields(), feature));
      }
      writer.close();
    } catch (DbaseFileException e) {
      throw new IOException("table of layer " + layer.name() + ": " + e.getMessage(), e);
    }
  }

  private static DbaseFileHeader header(Layer layer) throws DbaseFileException {
    DbaseFileHeader header = new DbaseFileHeader();
    for (int i = 0; i < layer.fields().size(); i++) {
      Field field = layer.fields().get(i);
      switch (field.type()) {
        case TEXT -> header.addColumn(field.name(), 'C', width(layer.features(), i), 0);
        case INTEGER -> header.addColumn(field.name(), 'N', INTEGER_WIDTH, 0);
        case REAL -> header.addColumn(field.name(), 'N', NUMBER_WIDTH, field.decimals());
      }
    }
    header.setNumRecords(layer.features().size());
    return header;
  }

  private static int width(List<Feature> features, int field) {
    return Math.max(
        1,
        features.stream()
            .mapToInt(feature -> inBytes((String) feature.values().get(field)).length())
            .max()
            .orElse(0));
  }

  /** The values as the driver wants them; a missing text is blank, not a row of NUL characters. */
  private static Object[] row(List<Field> fields, Feature feature) {
    Object[] row = feature.values().toArray();
    for (int i = 0; i < row.length; i++) {
      if (fields.get(i).type() == Field.Type.TEXT) {
        row[i] = inBytes((String) row[i]);
      }
    }
    return row;
  }

  /** The text cut to what fits, each byte of its UTF-8 as a character. */
  private static String inBytes(String text) {
    return text == null
        ? ""
        : new String(
            CleanText.cut(text, LayerSet.SHAPEFILE_TEXT_BYTES).getBytes(StandardCharsets.UTF_8),
            StandardCharsets.ISO_8859_1);
  }

  /** Overwrites a few bytes of a finished file. */
  private static void patch(Path file, long at, byte[] bytes) throws IOException {
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
      channel.write(ByteBuffer.wrap(bytes), at);
    }
  }
}
