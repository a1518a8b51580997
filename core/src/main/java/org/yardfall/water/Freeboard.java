package org.yardfall.water;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Location;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.linearref.LengthIndexedLine;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.site.Building;
import org.yardfall.site.Parcel;
import org.yardfall.site.Site;

/**
 * How far a lot lies above the level at which a low spot spills, which water there cannot pass for
 * long however its inlets are blocked: the ground at the lot's buildings, or all its ground where
 * it has none. Thresholds of doors are higher by what is not known here.
 *
 * @param parcelId the lot
 * @param atBuilding whether it is the lowest ground at its buildings, not of the whole lot
 * @param groundM that ground's elevation in metres
 * @param freeboardM that less the spill elevation, negative where water stands against it
 */
public record Freeboard(String parcelId, boolean atBuilding, double groundM, double freeboardM) {

  /** Lots farther from a low spot than this are not its neighbours; common practice, no source. */
  private static final double NEAR_M = 15;

  /**
   * The freeboard of the lots round a low spot, in the parcels' order; lots whose ground is not
   * known are left out. O(cells of those lots).
   */
  public static List<Freeboard> round(LowSpot spot, Site site, ElevationGrid ground) {
    List<Freeboard> found = new ArrayList<>();
    for (Parcel parcel : site.parcels()) {
      if (!parcel.outline().isWithinDistance(spot.outline(), NEAR_M)) {
        continue;
      }
      List<Polygon> houses =
          site.buildings().stream()
              .map(Building::outline)
              .filter(outline -> parcel.outline().contains(outline.getInteriorPoint()))
              .toList();
      double lowest =
          houses.isEmpty()
              ? lowestWithin(parcel.outline(), ground)
              : houses.stream().mapToDouble(h -> lowestAlong(h, ground)).min().orElseThrow();
      if (Double.isFinite(lowest)) {
        found.add(new Freeboard(parcel.id(), !houses.isEmpty(), lowest, lowest - spot.spillM()));
      }
    }
    return found;
  }

  /** The same for every low spot, by its id. */
  public static Map<String, List<Freeboard>> byLowSpot(
      List<LowSpot> spots, Site site, ElevationGrid ground) {
    return spots.stream().collect(Collectors.toMap(LowSpot::id, spot -> round(spot, site, ground)));
  }

  private static double lowestAlong(Geometry outline, ElevationGrid ground) {
    LengthIndexedLine rim = new LengthIndexedLine(outline.getBoundary());
    double length = outline.getBoundary().getLength();
    double lowest = Double.POSITIVE_INFINITY;
    for (double at = 0; at < length; at += ground.frame().cellM() / 2) {
      Coordinate place = rim.extractPoint(at);
      double z = ground.bilinear(place.x, place.y);
      lowest = z < lowest ? z : lowest;
    }
    return lowest;
  }

  private static double lowestWithin(Polygon lot, ElevationGrid ground) {
    GridFrame frame = ground.frame();
    IndexedPointInAreaLocator inside = new IndexedPointInAreaLocator(lot);
    Envelope extent = lot.getEnvelopeInternal();
    double lowest = Double.POSITIVE_INFINITY;
    for (int row = Math.max(0, frame.row(extent.getMaxY()));
        row <= Math.min(frame.rows() - 1, frame.row(extent.getMinY()));
        row++) {
      for (int col = Math.max(0, frame.col(extent.getMinX()));
          col <= Math.min(frame.cols() - 1, frame.col(extent.getMaxX()));
          col++) {
        float z = ground.z()[row * frame.cols() + col];
        if (z < lowest
            && inside.locate(new Coordinate(frame.x(col), frame.y(row))) != Location.EXTERIOR) {
          lowest = z;
        }
      }
    }
    return lowest;
  }
}
