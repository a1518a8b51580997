package org.yardfall.site;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.geotools.api.referencing.crs.CoordinateReferenceSystem;
import org.h2gis.functions.io.shp.internal.IndexFile;
import org.h2gis.functions.io.shp.internal.ShapeType;
import org.h2gis.functions.io.shp.internal.ShapefileReader;
import org.locationtech.jts.geom.Geometry;

/**
 * Reads a shapefile: {@code .shp} by {@code .shx}, attributes from {@code .dbf} ({@link DbfTable}),
 * the CRS from {@code .prj}. Records deleted from the table are left out.
 */
final class ShapefileLayerReader {

  private ShapefileLayerReader() {}

  static VectorLayer read(Path shp) {
    String file = shp.getFileName().toString();
    Path shx = part(shp, "shx").orElseThrow(() -> missing(file, ".shx"));
    Path dbf = part(shp, "dbf").orElseThrow(() -> missing(file, ".dbf"));
    try {
      List<Geometry> shapes = shapes(shp, shx);
      DbfTable table = DbfTable.read(dbf, part(shp, "cpg"));
      if (table.rows().size() != shapes.size()) {
        throw new BadInputException(
            file,
            "its parts do not belong together: "
                + shapes.size()
                + " shapes, but "
                + table.rows().size()
                + " rows in the .dbf",
            "copy all parts of the shapefile anew");
      }
      List<VectorFeature> features = new ArrayList<>();
      for (int i = 0; i < shapes.size(); i++) {
        Optional<Map<String, String>> row = table.rows().get(i);
        if (row.isPresent()) {
          features.add(new VectorFeature(Integer.toString(i + 1), shapes.get(i), row.get()));
        }
      }
      return new VectorLayer(file, crs(shp), table.fields(), features);
    } catch (IOException | RuntimeException e) {
      if (e instanceof BadInputException bad) {
        throw bad;
      }
      throw new BadInputException(
          file, "the shapefile is damaged (" + e.getMessage() + ")", "copy or export it anew");
    }
  }

  /** Whether the file is a shapefile without a {@code .prj}. */
  static boolean lacksCrs(Path file) {
    return file.getFileName().toString().toLowerCase(Locale.ROOT).endsWith(".shp")
        && part(file, "prj").isEmpty();
  }

  private static List<Geometry> shapes(Path shp, Path shx) throws IOException {
    try (FileChannel shapeChannel = FileChannel.open(shp, StandardOpenOption.READ);
        FileChannel indexChannel = FileChannel.open(shx, StandardOpenOption.READ)) {
      ShapefileReader reader = new ShapefileReader(shapeChannel);
      ShapeType type = reader.getHeader().getShapeType();
      if (type == null || type == ShapeType.UNDEFINED) {
        throw new BadInputException(
            shp.getFileName().toString(),
            "its kind of shape (such as MultiPatch) has no plan outline",
            "export it as points, lines or polygons");
      }
      IndexFile index = new IndexFile(indexChannel);
      List<Geometry> shapes = new ArrayList<>();
      for (int i = 0; i < index.getRecordCount(); i++) {
        shapes.add(reader.geomAt(index.getOffset(i)));
      }
      return shapes;
    }
  }

  private static Optional<CoordinateReferenceSystem> crs(Path shp) throws IOException {
    Optional<Path> prj = part(shp, "prj");
    if (prj.isEmpty()) {
      return Optional.empty();
    }
    String wkt = Files.readString(prj.get(), StandardCharsets.ISO_8859_1);
    return wkt.isBlank()
        ? Optional.empty()
        : Optional.of(CrsLookup.parseWkt(wkt, prj.get().getFileName().toString()));
  }

  /** The shapefile's part with the given ending, in whatever case. */
  private static Optional<Path> part(Path shp, String ending) {
    String name = shp.getFileName().toString();
    String stem = name.substring(0, name.length() - 3);
    try (Stream<Path> beside = Files.list(shp.toAbsolutePath().getParent())) {
      return beside
          .filter(p -> p.getFileName().toString().equalsIgnoreCase(stem + ending))
          .filter(p -> p.getFileName().toString().startsWith(stem))
          .sorted()
          .findFirst();
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  private static BadInputException missing(String file, String part) {
    return new BadInputException(
        file,
        "the shapefile's " + part + " is missing",
        "copy all its parts (.shp, .shx, .dbf, .prj) into one folder");
  }
}
