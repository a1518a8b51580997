package org.yardfall.layer;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.function.DoubleBinaryOperator;
import org.yardfall.Screening;
import org.yardfall.elevation.ElevationSource;
import org.yardfall.site.SiteReader;

/** A small made-up yard written as files and planned whole; its south-west corner is the origin. */
final class PlannedYard {

  static final double EAST = 500_000;
  static final double NORTH = 5_000_000;

  private static final double CELL_M = 0.5;

  private final Path folder;
  private final StringBuilder site = new StringBuilder();

  PlannedYard(Path folder, double widthM, double heightM, DoubleBinaryOperator ground)
      throws IOException {
    this.folder = folder;
    Files.writeString(folder.resolve("dem.asc"), raster(widthM, heightM, ground));
    site.append(
        """
        site: { crs: EPSG:26915 }
        elevation: { files: [dem.asc], crs: EPSG:26915, vertical-unit: m, accuracy: 0.01 m }
        parcels: { file: lot.geojson, id: LOT, lot: "1" }
        """);
  }

  /** The lot, as west, south, east and north. */
  PlannedYard lot(double... box) throws IOException {
    return box("lot.geojson", "\"LOT\": \"1\"", box);
  }

  PlannedYard house(double... box) throws IOException {
    site.append("buildings: { file: house.geojson }\n");
    return box("house.geojson", "\"id\": \"house\"", box);
  }

  /** More lines of the site file; a place, if given, stands for {@code AT}. */
  PlannedYard with(String yaml, double... at) {
    String text = yaml;
    if (at.length == 2) {
      text = yaml.replace("AT", "[" + (EAST + at[0]) + ", " + (NORTH + at[1]) + "]");
    }
    site.append(text).append('\n');
    return this;
  }

  Result plan() throws IOException {
    Path file = Files.writeString(folder.resolve("site.yml"), site);
    return Screening.of(SiteReader.read(file, ElevationSource.PLANES)).run();
  }

  private PlannedYard box(String name, String properties, double... b) throws IOException {
    Files.writeString(
        folder.resolve(name),
        String.format(
            Locale.ROOT,
            """
            { "type": "FeatureCollection",
              "crs": { "type": "name", "properties": { "name": "EPSG:26915" } },
              "features": [ { "type": "Feature", "properties": { %1$s },
                "geometry": { "type": "Polygon", "coordinates": [ [ [%2$.1f, %3$.1f],
                  [%4$.1f, %3$.1f], [%4$.1f, %5$.1f], [%2$.1f, %5$.1f], [%2$.1f, %3$.1f] ] ] } } ] }
            """,
            properties,
            EAST + b[0],
            NORTH + b[1],
            EAST + b[2],
            NORTH + b[3]));
    return this;
  }

  private static String raster(double widthM, double heightM, DoubleBinaryOperator ground) {
    int cols = (int) Math.round(widthM / CELL_M);
    int rows = (int) Math.round(heightM / CELL_M);
    StringBuilder text =
        new StringBuilder(
            String.format(
                Locale.ROOT,
                "ncols %d%nnrows %d%nxllcorner %.1f%nyllcorner %.1f%ncellsize %.1f%n"
                    + "NODATA_value -9999%n",
                cols,
                rows,
                EAST,
                NORTH,
                CELL_M));
    for (int row = 0; row < rows; row++) {
      for (int col = 0; col < cols; col++) {
        double z = ground.applyAsDouble((col + 0.5) * CELL_M, heightM - (row + 0.5) * CELL_M);
        text.append(String.format(Locale.ROOT, "%.4f ", z));
      }
      text.append(System.lineSeparator());
    }
    return text.toString();
  }
}
