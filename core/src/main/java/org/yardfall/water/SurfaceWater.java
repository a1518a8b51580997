package org.yardfall.water;

import java.util.BitSet;
import java.util.List;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.site.Assumption;

/**
 * What the surface water does on a piece of ground.
 *
 * @param ground the ground as the water sees it: buildings stand in it, openings are cut through it
 * @param filled elevation in metres that water must reach to leave each cell; NaN where unknown
 * @param flow where each cell's water goes
 * @param areaM2 area that drains through each cell in m², itself included; 0 where unknown
 * @param edge cells that could receive water from beyond the known ground
 * @param lowSpots closed depressions, largest volume first
 * @param flowPaths lines along which water runs
 * @param catchments the ground that drains to the lot and to each low spot
 * @param assumptions what was assumed
 * @param warnings what was odd, in words
 */
@SuppressWarnings("ArrayRecordComponent") // hot-loop arrays, deliberately shared
public record SurfaceWater(
    ElevationGrid ground,
    float[] filled,
    FlowField flow,
    double[] areaM2,
    BitSet edge,
    List<LowSpot> lowSpots,
    List<FlowPath> flowPaths,
    List<Catchment> catchments,
    List<Assumption> assumptions,
    List<String> warnings) {

  /** Keeps the lists to itself. */
  public SurfaceWater {
    lowSpots = List.copyOf(lowSpots);
    flowPaths = List.copyOf(flowPaths);
    catchments = List.copyOf(catchments);
    assumptions = List.copyOf(assumptions);
    warnings = List.copyOf(warnings);
  }
}
