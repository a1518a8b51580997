package org.yardfall.layer;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import org.h2gis.functions.io.dbf.internal.DbaseFileException;
import org.h2gis.functions.io.dbf.internal.DbaseFileHeader;
import org.h2gis.functions.io.dbf.internal.DbaseFileWriter;
import org.h2gis.functions.io.shp.internal.ShapeType;
import org.h2gis.functions.io.shp.internal.ShapefileWriter;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.yardfall.site.WorkingCrs;

/**
 * Writes a layer as a shapefile in the working CRS: {@code .shp}, {@code .shx}, {@code .dbf}, {@code
 * .prj} and {@code .cpg}. Text is UTF-8, cut at {@value LayerSet#SHAPEFILE_TEXT_BYTES} bytes between
 * characters; exterior rings run clockwise; a missing number is blank.
 */
final class ShapefileLayerWriter {

  /** Width of a number; a value that needs more cannot come from a site on Earth. */
  private static final int NUMBER_WIDTH = 18;

  private static final int INTEGER_WIDTH = 9;

  /** Date of the last change in every table, so that the same input gives the same bytes. */
  private static final byte[] FIXED_DATE = {100, 1, 1};

  private static final int LANGUAGE_BYTE = 29;

  private final Placement placement;
  private final String prj;

  ShapefileLayerWriter(WorkingCrs crs) {
    this.placement = Placement.inWorkingCrs(crs);
    this.prj = EsriWkt.of(crs.crs());
  }

  /** Writes the layer's five files into a folder. */
  void write(Layer layer, Path folder) throws IOException {
    writeShapes(layer, folder);
    Path table = folder.resolve(layer.name() + ".dbf");
    writeTable(layer, table);
    settle(table);
    Files.writeString(folder.resolve(layer.name() + ".prj"), prj);
    Files.writeString(folder.resolve(layer.name() + ".cpg"), "UTF-8");
  }

  private void writeShapes(Layer layer, Path folder) throws IOException {
    ShapeType type = type(layer.shape());
    try (FileChannel shp = create(folder.resolve(layer.name() + ".shp"));
        FileChannel shx = create(folder.resolve(layer.name() + ".shx"))) {
      ShapefileWriter writer = new ShapefileWriter(shp, shx);
      writer.writeHeaders(type);
      for (Feature feature : layer.features()) {
        writer.writeGeometry(shape(placement.apply(feature.geometry())));
      }
      writer.writeHeaders(type); // again, now that the extent and the length are known
      writer.close();
    }
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
        writer.write(feature.values().stream().map(ShapefileLayerWriter::value).toArray());
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
        case FLAG -> header.addColumn(field.name(), 'L', 1, 0);
      }
    }
    header.setNumRecords(layer.features().size());
    return header;
  }

  private static int width(List<Feature> features, int field) {
    return Math.max(
        1,
        features.stream()
            .map(feature -> (String) value(feature.values().get(field)))
            .mapToInt(text -> text == null ? 0 : text.length())
            .max()
            .orElse(0));
  }

  private static Object value(Object value) {
    return value instanceof String text
        ? new String(
            CleanText.cut(text, LayerSet.SHAPEFILE_TEXT_BYTES).getBytes(StandardCharsets.UTF_8),
            StandardCharsets.ISO_8859_1)
        : value;
  }

  /** Fixes the date, and leaves the encoding to the {@code .cpg} file. */
  private static void settle(Path table) throws IOException {
    try (RandomAccessFile file = new RandomAccessFile(table.toFile(), "rw")) {
      file.seek(1);
      file.write(FIXED_DATE);
      file.seek(LANGUAGE_BYTE);
      file.write(0);
    }
  }
}
