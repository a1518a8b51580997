package org.yardfall.elevation;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.ElevationInput;
import org.yardfall.site.ShotInput;
import org.yardfall.site.WorkingCrs;

/** The rasters beside this test and ways to read them. */
final class RasterFixtures {

  private RasterFixtures() {}

  static Path file(String name) {
    try {
      return Path.of(RasterFixtures.class.getResource(name).toURI());
    } catch (URISyntaxException e) {
      throw new IllegalArgumentException(name, e);
    }
  }

  static ElevationInput input(Path... rasters) {
    return input(OptionalDouble.empty(), null, rasters);
  }

  static ElevationInput input(OptionalDouble unitM, String crs, Path... rasters) {
    return new ElevationInput(
        List.of(rasters), null, null, unitM, "", OptionalDouble.empty(), crs, ShotInput.NONE, "");
  }

  static ElevationSource open(String name, String crs) {
    return ElevationSource.open(input(file(name)), CrsLookup.of(crs));
  }

  /** Reads a raster whole, in its own CRS. */
  static Terrain read(Path raster) {
    WorkingCrs crs = ElevationSource.PLANES.own(raster).orElseThrow();
    ElevationSource source = ElevationSource.open(input(raster), crs);
    return source.read(source.extentM());
  }

  static Terrain read(String name) {
    return read(file(name));
  }

  static Terrain read(String name, String crs) {
    ElevationSource source = open(name, crs);
    return source.read(source.extentM());
  }

  /** The elevations that GDAL reads, row by row. */
  static float[] expected(String name) {
    List<String> words =
        lines(name).stream().skip(1).flatMap(line -> Arrays.stream(line.split(" ", -1))).toList();
    float[] values = new float[words.size()];
    for (int i = 0; i < values.length; i++) {
      values[i] = Float.parseFloat(words.get(i));
    }
    return values;
  }

  /** GDAL's geotransform: west, cell width, 0, north, 0, negative cell height. */
  static double[] geotransform(String name) {
    return Arrays.stream(lines(name).get(0).split(" ", -1))
        .mapToDouble(Double::parseDouble)
        .toArray();
  }

  private static List<String> lines(String name) {
    try {
      return Files.readAllLines(file(name));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
