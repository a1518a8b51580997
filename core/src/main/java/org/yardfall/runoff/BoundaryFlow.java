package org.yardfall.runoff;

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
 * @param at where most of it crosses
 * @param bearingDeg bearing of the flow in degrees from grid north
 * @param widthM length of the stretch in metres
 * @param areaM2 area beyond that drains through it in m²
 * @param atLeast whether the area is a lower bound
 * @param volumeM3 runoff volume of the design storm in m³
 * @param peakM3S peak flow of the design storm in m³/s
 * @param surfaces area by cover in words, for example {@code lawn 310 m2, roof 95 m2}
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
    String surfaces) {}
