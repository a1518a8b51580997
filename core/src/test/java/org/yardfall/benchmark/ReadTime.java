package org.yardfall.benchmark;

import java.nio.file.Path;
import java.util.Locale;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.ElevationSource;
import org.yardfall.elevation.Terrain;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.ElevationInput;
import org.yardfall.site.Given;

/** The time that reading a GeoTIFF takes, for {@code core/src/test/scripts/benchmark-fill.sh}. */
final class ReadTime {

  private static final int ROUNDS = 5;

  private ReadTime() {}

  /** Prints {@code read SECONDS}, the best of a few rounds, for a raster in EPSG:26915. */
  public static void main(String[] args) {
    ElevationInput input = Given.elevation(Path.of(args[0]));
    double best = Double.POSITIVE_INFINITY;
    for (int round = 0; round < ROUNDS; round++) {
      long start = System.nanoTime();
      ElevationSource source = ElevationSource.open(input, CrsLookup.of("EPSG:26915"));
      Terrain terrain = source.read(source.extentM());
      ElevationGrid ground = terrain.ground();
      best = ground.z().length == 0 ? best : Math.min(best, (System.nanoTime() - start) / 1e9);
    }
    System.out.printf(Locale.ROOT, "read %.3f%n", best);
  }
}
