package org.yardfall.water;

import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;

/**
 * A closed depression: where water stands until it spills.
 *
 * @param id {@code L1}, {@code L2} …, deepest volume first
 * @param outline its extent at spill level, polygon or multipolygon in metres of the working plane
 * @param deepest centre of its lowest cell
 * @param bottomM elevation of its lowest cell in metres
 * @param spillM elevation at which it spills in metres
 * @param spillPoint centre of the cell over which it spills
 * @param depthM spill elevation minus bottom in metres
 * @param areaM2 area at spill level in m²
 * @param volumeM3 volume below spill level in m³
 * @param contributingM2 area that drains to it in m², itself included, up to the next low spots
 *     above that hold their water until they spill
 * @param atLeast whether the contributing area is a lower bound, water from beyond the known ground
 *     being possible
 * @param parentId the low spot that holds it once it has merged, or empty
 * @param childIds the low spots that merge into it
 * @param spillsToId the low spot that its spill reaches next, or empty where it runs off
 * @param stages stage, area and volume, rising
 * @param doubtful why it may not exist (shallower than the accuracy, drawn by rounding), or empty
 */
public record LowSpot(
    String id,
    Geometry outline,
    Coordinate deepest,
    double bottomM,
    double spillM,
    Coordinate spillPoint,
    double depthM,
    double areaM2,
    double volumeM3,
    double contributingM2,
    boolean atLeast,
    String parentId,
    List<String> childIds,
    String spillsToId,
    List<Stage> stages,
    String doubtful) {

  /** Keeps the lists to itself. */
  public LowSpot {
    childIds = List.copyOf(childIds);
    stages = List.copyOf(stages);
  }

  /** The way from its lowest place to where it spills, in degrees from grid north. */
  public double spillBearingDeg() {
    double math = Math.toDegrees(Math.atan2(spillPoint.y - deepest.y, spillPoint.x - deepest.x));
    return (450 - math) % 360;
  }

  /**
   * A line of the stage–area–volume table.
   *
   * @param levelM water level in metres
   * @param areaM2 area under water in m²
   * @param volumeM3 volume of water in m³
   */
  public record Stage(double levelM, double areaM2, double volumeM3) {}
}
