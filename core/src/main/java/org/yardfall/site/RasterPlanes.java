package org.yardfall.site;

import java.nio.file.Path;
import java.util.Optional;

/** What a site asks of its elevations before they are read: a plane to work on. */
@FunctionalInterface
public interface RasterPlanes {

  /**
   * The CRS of a raster.
   *
   * @return empty where lengths cannot be measured in it, as in degrees
   * @throws BadInputException where the file is no raster of elevations or has no CRS
   */
  Optional<WorkingCrs> own(Path raster);

  /**
   * The plane to bring a raster to that has none of its own, where nothing else names one.
   *
   * @return empty where there is none to offer
   * @throws BadInputException as for {@link #own}
   */
  default Optional<WorkingCrs> zone(Path raster) {
    return Optional.empty();
  }

  /**
   * The plane that a file of shots lies on by its own word, as a point cloud may.
   *
   * @return empty where the file names none
   * @throws BadInputException where the file is damaged
   */
  default Optional<WorkingCrs> ofShots(Path shots) {
    return Optional.empty();
  }
}
