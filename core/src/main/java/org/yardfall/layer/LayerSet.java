package org.yardfall.layer;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/**
 * The map layers of a result, each defined once; the writers only know a format. All lie on the
 * working plane in metres.
 *
 * @param layers the layers, from the ground up
 */
public record LayerSet(List<Layer> layers) {

  /** Most bytes of UTF-8 that a text field of a shapefile holds. */
  public static final int SHAPEFILE_TEXT_BYTES = 254;

  /** Keeps the list to itself. */
  public LayerSet {
    layers = List.copyOf(layers);
  }

  /** The layers of a result; a layer without features is there too. */
  public static LayerSet of(Result result) {
    return new LayerSet(
        List.of(
            WaterLayers.catchments(result),
            ReachLayer.of(result),
            ReachLayer.contours(result),
            WaterLayers.lowSpots(result),
            WaterLayers.standing(result),
            SiteLayers.lot(result),
            SiteLayers.obstacles(result),
            WaterLayers.altered(result),
            SiteLayers.levelled(result),
            SiteLayers.daylight(result),
            WaterLayers.flowPaths(result),
            WaterLayers.inflow(result),
            DrainLayers.overland(result),
            DrainLayers.drains(result),
            DrainLayers.stations(result),
            SiteLayers.outlets(result)));
  }

  /** The layer of the given name. */
  public Layer layer(String name) {
    return layers.stream()
        .filter(layer -> layer.name().equals(name))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no layer " + name));
  }

  /** What a format cannot hold whole, in words; empty where every format holds everything. */
  public List<String> warnings() {
    List<String> warnings = new ArrayList<>();
    for (Layer layer : layers) {
      for (int i = 0; i < layer.fields().size(); i++) {
        int field = i;
        long cut =
            layer.features().stream()
                .map(feature -> feature.values().get(field))
                .filter(value -> value instanceof String text && isLong(text))
                .count();
        if (cut > 0) {
          warnings.add(
              "layer %s: %d text(s) in field %s are longer than the %d bytes a shapefile holds and"
                      .formatted(
                          layer.name(), cut, layer.fields().get(i).name(), SHAPEFILE_TEXT_BYTES)
                  + " are cut there; the other formats hold them whole");
        }
      }
    }
    return warnings;
  }

  private static boolean isLong(String text) {
    return text.getBytes(StandardCharsets.UTF_8).length > SHAPEFILE_TEXT_BYTES;
  }
}
