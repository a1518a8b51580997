package org.yardfall.runoff;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.LineString;

/**
 * A stretch of the property line that water crosses. It is evidence of what the ground does, not of
 * who is answerable.
 *
 * @param id {@code I1} … for water that enters, {@code O1} … for water that leaves; largest first
 * @param enters whether the water enters the lot
 * @param neighbour id of the parcel on the other side, or empty where none was read
 * @param stretch the stretch of the property line, in metres of the working plane
 * @param at the middle of what crosses: as much of the ground that sheds it has crossed to one side
 *     as to the other; where there is a thread, the thread
 * @param bearingDeg bearing of the flow in degrees from grid north
 * @param widthM length of the stretch in metres
 * @param areaM2 area that drains through it in m²: beyond the line where water enters, the lot's
 *     own and all that drains to it where water leaves; ground whose water a low spot keeps is left
 *     out
 * @param atLeast whether the area is a lower bound, because the known ground ends above it
 * @param volumeM3 runoff volume of the design storm in m³
 * @param peakM3S peak flow of the design storm in m³/s
 * @param surfaces area by cover in words, for example {@code lawn 310 m2, roof 95 m2}
 * @param concentrated whether the water runs in a thread rather than as a sheet
 * @param areaByParcelM2 that area by parcel in m²; the key is empty for ground of no parcel read
 * @param runoff that area by cover, with curve numbers, depths and volumes
 * @param time time of concentration along its longest path
 * @param intensityMS rain intensity of that time in m/s
 * @param coefficient composite coefficient of the rational method
 * @param downstream parcels that the water crosses on its way down from the lot, in order; empty
 *     where water enters
 */
public record BoundaryFlow(
    String id,
    boolean enters,
    String neighbour,
    LineString stretch,
    Coordinate at,
    double bearingDeg,
    double widthM,
    double areaM2,
    boolean atLeast,
    double volumeM3,
    double peakM3S,
    String surfaces,
    boolean concentrated,
    Map<String, Double> areaByParcelM2,
    CurveNumber.Runoff runoff,
    TimeOfConcentration time,
    double intensityMS,
    double coefficient,
    List<String> downstream) {

  /** Keeps the collections to itself, the parcels in the order of their ids. */
  public BoundaryFlow {
    areaByParcelM2 = java.util.Collections.unmodifiableMap(new TreeMap<>(areaByParcelM2));
    downstream = List.copyOf(downstream);
  }

  /** Area in m² of the parcel across the line itself; all of it where no parcels are told apart. */
  public double ownM2() {
    return areaByParcelM2.isEmpty() ? areaM2 : areaByParcelM2.getOrDefault(neighbour, 0.0);
  }

  BoundaryFlow withId(String newId) {
    return new BoundaryFlow(
        newId,
        enters,
        neighbour,
        stretch,
        at,
        bearingDeg,
        widthM,
        areaM2,
        atLeast,
        volumeM3,
        peakM3S,
        surfaces,
        concentrated,
        areaByParcelM2,
        runoff,
        time,
        intensityMS,
        coefficient,
        downstream);
  }
}
