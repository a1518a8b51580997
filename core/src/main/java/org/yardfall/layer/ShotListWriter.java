package org.yardfall.layer;

import static org.yardfall.layer.Layer.Column.real;
import static org.yardfall.layer.Layer.Column.text;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import javax.xml.stream.XMLStreamException;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.fieldwork.FieldUnits;
import org.yardfall.fieldwork.ShotList;
import org.yardfall.fieldwork.ShotPlace;

/** Writes where to shoot as a table, as a map layer and as way points for a phone. */
public final class ShotListWriter {

  private static final String NAME = "shot-list";
  private static final String GPX = "http://www.topografix.com/GPX/1/1";

  private ShotListWriter() {}

  /**
   * Writes {@code shot-list.csv}, {@code shot-list.geojson} (RFC 7946) and {@code shot-list.gpx}
   * (GPX 1.1) into a folder.
   *
   * @param units units of the table; the map files are in metres
   */
  public static void write(ShotList list, FieldUnits units, Path folder) throws IOException {
    Files.writeString(folder.resolve(NAME + ".csv"), list.csv(units), StandardCharsets.UTF_8);
    new GeoJsonLayerWriter(list.crs()).write(layer(list), folder.resolve(NAME + ".geojson"));
    writeGpx(list, folder.resolve(NAME + ".gpx"));
  }

  /** The list as a map layer. */
  static Layer layer(ShotList list) {
    GeometryFactory geometries = new GeometryFactory();
    return Layer.of(
        "shot_list",
        "Where to shoot",
        Layer.Shape.POINT_Z,
        list.places(),
        place ->
            geometries.createPoint(new Coordinate(place.at().x, place.at().y, place.expectedM())),
        List.of(
            text("id", ShotPlace::id),
            text("what", ShotListWriter::what),
            real("expect_m", 3, ShotPlace::expectedM),
            real("from_m", 3, ShotPlace::lowestM),
            real("to_m", 3, ShotPlace::highestM),
            text("why", place -> String.join("; ", place.why())),
            text("routes", place -> String.join(" ", place.routeIds()))));
  }

  private static void writeGpx(ShotList list, Path file) throws IOException {
    try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file));
        XmlFile xml = new XmlFile(out)) {
      xml.open("gpx", "xmlns", GPX, "version", "1.1", "creator", "Yardfall");
      for (ShotPlace place : list.places()) {
        xml.open("wpt", "lat", degrees(place.wgs84().y), "lon", degrees(place.wgs84().x))
            .text("ele", String.format(Locale.ROOT, "%.3f", place.expectedM()))
            .text("name", place.id())
            .text("desc", CleanText.of(String.join("; ", place.why())))
            .text("type", what(place))
            .close("wpt");
      }
      xml.close("gpx");
    } catch (XMLStreamException e) {
      throw new IOException(file.getFileName() + ": " + e.getMessage(), e);
    }
  }

  private static String what(ShotPlace place) {
    return Words.of(place.what());
  }

  private static String degrees(double value) {
    return String.format(Locale.ROOT, "%.8f", value);
  }
}
