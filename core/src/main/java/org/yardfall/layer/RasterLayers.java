package org.yardfall.layer;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.yardfall.elevation.GridFrame;
import org.yardfall.route.GravityReach;
import org.yardfall.site.WorkingCrs;
import org.yardfall.water.SurfaceWater;

/** Writes what is known by cell as GeoTIFFs: {@code rasters/NAME.tif} in the working CRS. */
public final class RasterLayers {

  private static final String METRES = "metre";
  private static final String SQUARE_METRES = "m2";

  private RasterLayers() {}

  /**
   * Writes into a folder the depth of water at spill level in metres ({@code fill_depth.tif}) and
   * the area that drains through each cell in m² ({@code contributing_area.tif}).
   */
  public static void write(SurfaceWater water, WorkingCrs crs, Path folder) throws IOException {
    Path rasters = Files.createDirectories(folder.resolve("rasters"));
    GridFrame frame = water.ground().frame();
    GeoTiffWriter.write(rasters.resolve("fill_depth.tif"), frame, fillDepthM(water), crs, METRES);
    GeoTiffWriter.write(
        rasters.resolve("contributing_area.tif"), frame, areaM2(water), crs, SQUARE_METRES);
  }

  /**
   * Writes into a folder, where an outlet was looked for, the lowest invert in metres from which a
   * pipe can fall to one ({@code reach_invert.tif}) and the room in height above it, in metres
   * ({@code reach_room.tif}); no value where none is reached. They cover the ground that was
   * searched.
   */
  public static void writeReach(Result result, Path folder) throws IOException {
    if (result.plan().reach().isEmpty()) {
      return;
    }
    Path rasters = Files.createDirectories(folder.resolve("rasters"));
    GravityReach reach = result.plan().reach().get();
    WorkingCrs crs = result.site().crs();
    float[] invert = new float[reach.invertM().length];
    for (int cell = 0; cell < invert.length; cell++) {
      invert[cell] = (float) reach.invertM()[cell];
    }
    GeoTiffWriter.write(rasters.resolve("reach_invert.tif"), reach.frame(), invert, crs, METRES);
    GeoTiffWriter.write(
        rasters.resolve("reach_room.tif"),
        reach.frame(),
        ReachLayer.roomM(reach, result),
        crs,
        METRES);
  }

  private static float[] fillDepthM(SurfaceWater water) {
    float[] depth = new float[water.filled().length];
    for (int cell = 0; cell < depth.length; cell++) {
      depth[cell] = water.filled()[cell] - water.ground().z()[cell];
    }
    return depth;
  }

  private static float[] areaM2(SurfaceWater water) {
    float[] area = new float[water.areaM2().length];
    for (int cell = 0; cell < area.length; cell++) {
      area[cell] = Float.isNaN(water.filled()[cell]) ? Float.NaN : (float) water.areaM2()[cell];
    }
    return area;
  }
}
