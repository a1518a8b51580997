package org.yardfall.sheet;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.locationtech.jts.geom.Geometry;
import org.yardfall.layer.Result;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.site.Parcel;
import org.yardfall.site.UnitSystem;
import org.yardfall.water.Freeboard;
import org.yardfall.water.LowSpot;
import org.yardfall.water.StandingWater;
import org.yardfall.water.StandingWater.Pond;

/** The summary's paragraph on what the surface water does before anything is built. */
final class WaterSummary {

  private static final int LISTED = 6;

  /** A low spot that stands no more than this deeper, in metres, reads the same. */
  private static final double DEEPER_M = 0.005;

  private final Result result;
  private final UnitSystem units;
  private final Wording wording;

  private WaterSummary(Result result, UnitSystem units) {
    this.result = result;
    this.units = units;
    this.wording = new Wording(result, units);
  }

  /** The paragraph. */
  static String of(Result result, UnitSystem units) {
    return new WaterSummary(result, units).paragraph();
  }

  private String paragraph() {
    StringBuilder say = new StringBuilder("Water: ");
    if (result.site().lot().isPresent()) {
      say.append(arriving());
    }
    List<LowSpot> spots = lowSpotsAsked();
    say.append(lowSpots(spots));
    result.standing().ifPresent(standing -> say.append(standing(standing, spots)));
    result
        .blocked()
        .filter(blocked -> !spots.isEmpty())
        .ifPresent(blocked -> say.append(blocked(result.standing().orElseThrow(), blocked, spots)));
    say.append(freeboard(spots));
    return say.toString();
  }

  private String arriving() {
    List<BoundaryFlow> in = result.flows().stream().filter(BoundaryFlow::enters).toList();
    if (in.isEmpty()) {
      return "none arrives from beyond the lot. ";
    }
    BoundaryFlow most =
        in.stream().max(Comparator.comparingDouble(BoundaryFlow::volumeM3)).orElseThrow();
    double volume = in.stream().mapToDouble(BoundaryFlow::volumeM3).sum();
    boolean atLeast = in.stream().anyMatch(BoundaryFlow::atLeast);
    return "in "
        + result.ledger().orElseThrow().storm().words(units)
        + " "
        + (atLeast ? "at least " : "")
        + units.water(volume)
        + " arrives across "
        + TerminalText.count(in.size(), "stretch", "stretches")
        + " of the property line, "
        + (in.size() == 1 ? "all of it (" : "the largest part (")
        + units.water(most.volumeM3())
        + ", "
        + units.flow(most.peakM3S())
        + " at peak) from "
        + (most.neighbour().isEmpty()
            ? "ground in no parcel"
            : "parcel " + TerminalText.plain(most.neighbour()))
        + " over "
        + units.length(most.widthM())
        + ". "
        + FlowOrigin.sentence(most, units, TerminalText::plain);
  }

  private String lowSpots(List<LowSpot> spots) {
    if (spots.isEmpty()) {
      return "No closed low spot. ";
    }
    LowSpot largest = spots.get(0);
    return (spots.size() == 1
            ? "One low spot, "
            : TerminalText.count(spots.size(), "low spot", "low spots") + "; the largest, ")
        + largest.id()
        + ", holds "
        + units.water(largest.volumeM3())
        + " at "
        + units.elevation(largest.depthM())
        + " deep over "
        + units.area(largest.areaM2())
        + (largest.doubtful().isEmpty()
            ? ". "
            : " (doubtful: " + wording.of(largest.doubtful()) + "). ");
  }

  /**
   * Which house lies least above a low spot's spill. The lowest ground of a lot without one, which
   * on any slope lies below what spills further up, says nothing of danger; results.json lists it.
   */
  private String freeboard(List<LowSpot> spots) {
    record Least(LowSpot spot, Freeboard lot) {}
    return spots.stream()
        .limit(LISTED)
        .flatMap(spot -> result.freeboard(spot).stream().map(lot -> new Least(spot, lot)))
        .filter(least -> least.lot().atBuilding())
        .min(Comparator.comparingDouble(least -> least.lot().freeboardM()))
        .map(
            least ->
                " Least freeboard: the lowest ground at the building of parcel "
                    + TerminalText.plain(least.lot().parcelId())
                    + " lies "
                    + units.elevation(Math.abs(least.lot().freeboardM()))
                    + (least.lot().freeboardM() < 0 ? " below" : " above")
                    + " the spill of "
                    + least.spot().id()
                    + ".")
        .orElse("");
  }

  private String standing(StandingWater standing, List<LowSpot> spots) {
    List<String> ids = spots.stream().map(LowSpot::id).toList();
    double volume =
        standing.ponds().stream()
            .filter(pond -> ids.contains(pond.lowSpotId()))
            .mapToDouble(Pond::volumeM3)
            .sum();
    String least = spots.stream().anyMatch(LowSpot::atLeast) ? "At least " : "";
    return volume > 0 ? least + units.water(volume) + " is left standing after the storm. " : "";
  }

  /** What more stands, and where, while every inlet is blocked. */
  private String blocked(StandingWater open, StandingWater blocked, List<LowSpot> spots) {
    Map<String, Double> before =
        open.ponds().stream().collect(Collectors.toMap(Pond::lowSpotId, Pond::depthM));
    List<String> ids = spots.stream().map(LowSpot::id).toList();
    List<Pond> deeper =
        blocked.ponds().stream()
            .filter(pond -> ids.contains(pond.lowSpotId()))
            .filter(pond -> pond.depthM() > before.getOrDefault(pond.lowSpotId(), 0.0) + DEEPER_M)
            .sorted(Comparator.comparingDouble(Pond::volumeM3).reversed())
            .toList();
    if (deeper.isEmpty()) {
      return "With the inlets blocked no low spot here stands deeper.";
    }
    String list =
        deeper.stream()
            .limit(LISTED)
            .map(pond -> blocked(pond, before.getOrDefault(pond.lowSpotId(), 0.0)))
            .collect(Collectors.joining("; "));
    int more = deeper.size() - LISTED;
    return "With the inlets blocked "
        + list
        + (more > 0 ? "; and " + TerminalText.count(more, "low spot", "low spots") + " more" : "")
        + ".";
  }

  private String blocked(Pond pond, double beforeM) {
    return pond.lowSpotId()
        + " stands "
        + units.elevation(pond.depthM())
        + " deep instead of "
        + units.elevation(beforeM)
        + (pond.overflowM3() > 0
            ? " and spills "
                + units.water(pond.overflowM3())
                + (pond.overflowTo().isEmpty() ? " downhill" : " on to " + pond.overflowTo())
            : "");
  }

  /** The low spots on the lot, or all where no lot is asked. */
  private List<LowSpot> lowSpotsAsked() {
    Optional<Geometry> lot = result.site().lot().map(Parcel::outline);
    return result.water().lowSpots().stream()
        .filter(spot -> spot.parentId().isEmpty())
        .filter(spot -> lot.isEmpty() || lot.get().intersects(spot.outline()))
        .toList();
  }
}
