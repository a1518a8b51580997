package org.yardfall.layer;

import static org.yardfall.layer.Layer.Column.real;
import static org.yardfall.layer.Layer.Column.text;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.yardfall.elevation.Contour;
import org.yardfall.elevation.Contours;
import org.yardfall.fieldwork.FieldUnits;

/** Writes the ground's contours as a map layer of lines, each with its elevation and its label. */
public final class ContourWriter {

  private static final String NAME = "contours";

  private ContourWriter() {}

  /**
   * Writes {@code layers/contours.geojson} and {@code layers/contours.shp} into a result's folder.
   *
   * @param intervalM between two lines, in metres, above 0; lines lie at its multiples
   * @param units of the labels
   */
  public static void write(Result result, double intervalM, FieldUnits units, Path folder)
      throws IOException {
    Layer layer = layer(Contours.of(result.terrain().ground(), intervalM), units);
    Path layers = Files.createDirectories(folder.resolve("layers"));
    new GeoJsonLayerWriter(result.site().crs()).write(layer, layers.resolve(NAME + ".geojson"));
    new ShapefileLayerWriter(result.site().crs()).write(layer, layers);
  }

  private static Layer layer(List<Contour> contours, FieldUnits units) {
    return Layer.of(
        NAME,
        "Contours of the ground",
        Layer.Shape.LINE,
        contours,
        Contour::line,
        List.of(
            real("elev_m", 3, Contour::elevationM),
            text("label", contour -> units.words(contour.elevationM()))));
  }
}
