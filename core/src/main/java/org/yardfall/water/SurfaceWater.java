package org.yardfall.water;

import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
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
 * @param catchments the ground that drains to the lot, first, and to each low spot that holds its
 *     water; the low spots' do not overlap
 * @param undetermined cells that the elevations leave level, so that the direction there is only
 *     the likeliest way to the flat's lower edge
 * @param roofs where the roofs' water comes down
 * @param altered cells that culverts and curb cuts lowered
 * @param depressions every depression, listed or not
 * @param lowSpotNodes by low spot, its node among the depressions
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
    BitSet undetermined,
    RoofRunoff roofs,
    List<AlteredCell> altered,
    DepressionHierarchy depressions,
    int[] lowSpotNodes,
    List<Assumption> assumptions,
    List<String> warnings) {

  /** Keeps the lists to itself. */
  public SurfaceWater {
    lowSpots = List.copyOf(lowSpots);
    flowPaths = List.copyOf(flowPaths);
    catchments = List.copyOf(catchments);
    altered = List.copyOf(altered);
    assumptions = List.copyOf(assumptions);
    warnings = List.copyOf(warnings);
  }

  /** The ground that drains to the lot, empty where no lot was given. */
  public Optional<Catchment> lotCatchment() {
    return catchments.stream().filter(c -> c.of().equals(CatchmentFinder.LOT)).findFirst();
  }

  /** The sides of the grid at which the lot's catchment is cut off; none without a lot. */
  public Set<Side> lotCatchmentCutOff() {
    return lotCatchment().map(Catchment::cutOffSides).orElse(Set.of());
  }
}
