package org.yardfall.layer;

import static org.yardfall.layer.Layer.Column.flag;
import static org.yardfall.layer.Layer.Column.real;
import static org.yardfall.layer.Layer.Column.text;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.elevation.GridFrame;
import org.yardfall.layer.Layer.Shape;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.runoff.DrainEffect.StretchChange;
import org.yardfall.water.AlteredCell;
import org.yardfall.water.Catchment;
import org.yardfall.water.FlowPath;
import org.yardfall.water.LowSpot;
import org.yardfall.water.StandingWater;
import org.yardfall.water.StandingWater.Pond;

/** The layers of what the water does. */
final class WaterLayers {

  /** Levels and volumes that differ by less, in m and m³, read the same in every layer. */
  private static final double SAME_M = 5e-4;

  private static final GeometryFactory GEOMETRIES = new GeometryFactory();

  private WaterLayers() {}

  static Layer lowSpots(Result result) {
    return Layer.of(
        "low_spots",
        "Low spots at spill level",
        Shape.AREA,
        result.water().lowSpots(),
        LowSpot::outline,
        List.of(
            text("id", LowSpot::id),
            real("depth_m", 3, LowSpot::depthM),
            real("area_m2", 2, LowSpot::areaM2),
            real("volume_m3", 3, LowSpot::volumeM3),
            real("bottom_m", 3, LowSpot::bottomM),
            real("spill_m", 3, LowSpot::spillM),
            real("spill_deg", 1, LowSpot::spillBearingDeg),
            real("contrib_m2", 2, LowSpot::contributingM2),
            flag("at_least", LowSpot::atLeast),
            text("parent", LowSpot::parentId),
            text("spills_to", LowSpot::spillsToId),
            text("doubtful", LowSpot::doubtful)));
  }

  static Layer altered(Result result) {
    GridFrame frame = result.water().ground().frame();
    return Layer.of(
        "altered",
        "Cells that culverts and curb cuts lowered in the ground the water sees",
        Shape.POINT,
        result.water().altered(),
        cell -> GEOMETRIES.createPoint(frame.centre(cell.cell())),
        List.of(
            text("by", AlteredCell::by),
            real("before_m", 3, cell -> Float.isNaN(cell.beforeM()) ? null : 0.0 + cell.beforeM()),
            real("after_m", 3, cell -> 0.0 + cell.afterM())));
  }

  static Layer flowPaths(Result result) {
    return Layer.of(
        "flow_paths",
        "Paths of the surface water",
        Shape.LINE,
        result.water().flowPaths(),
        FlowPath::line,
        List.of(
            text("id", FlowPath::id),
            real("area_m2", 2, FlowPath::areaM2),
            flag("at_least", FlowPath::atLeast),
            flag("unsure", FlowPath::undetermined)));
  }

  static Layer catchments(Result result) {
    return Layer.of(
        "catchments",
        "Ground that drains to the lot and to the low spots",
        Shape.AREA,
        result.water().catchments(),
        Catchment::outline,
        List.of(
            text("id", Catchment::id),
            text("drains_to", Catchment::of),
            real("area_m2", 2, Catchment::areaM2),
            text("cut_off", Catchment::cutOff)));
  }

  static Layer inflow(Result result) {
    return Layer.of(
        "inflow",
        "Where water crosses the property line, before and after the first drain",
        Shape.LINE,
        result.flows(),
        BoundaryFlow::stretch,
        List.of(
            text("id", BoundaryFlow::id),
            text("direction", flow -> flow.enters() ? "in" : "out"),
            text("neighbour", BoundaryFlow::neighbour),
            real("width_m", 2, BoundaryFlow::widthM),
            real("bearing", 1, BoundaryFlow::bearingDeg),
            real("area_m2", 2, BoundaryFlow::areaM2),
            flag("at_least", BoundaryFlow::atLeast),
            real("volume_m3", 3, BoundaryFlow::volumeM3),
            real("peak_m3s", 6, BoundaryFlow::peakM3S),
            text("surfaces", BoundaryFlow::surfaces),
            real("after_m2", 2, flow -> after(result, flow, StretchChange::afterM2)),
            real("after_m3", 3, flow -> after(result, flow, StretchChange::afterM3)),
            real("after_m3s", 6, flow -> after(result, flow, StretchChange::afterPeakM3S))));
  }

  /** A number of a stretch with the best drain; null where none is proposed. */
  private static Double after(
      Result result, BoundaryFlow flow, Function<StretchChange, Double> number) {
    return result.routes().stream()
        .limit(1)
        .flatMap(best -> result.effect(best).stream())
        .flatMap(effect -> effect.stretches().stream())
        .filter(change -> change.before().id().equals(flow.id()))
        .map(number)
        .findFirst()
        .orElse(null);
  }

  static Layer standing(Result result) {
    return Layer.of(
        "standing",
        "Water left standing after the design storm, the inlets being open or blocked",
        Shape.AREA,
        Sheet.of(result),
        sheet -> sheet.pond().outline(),
        List.of(
            text("low_spot", sheet -> sheet.pond().lowSpotId()),
            text("inlets", Sheet::inlets),
            real("level_m", 3, sheet -> sheet.pond().levelM()),
            real("depth_m", 3, sheet -> sheet.pond().depthM()),
            real("area_m2", 2, sheet -> sheet.pond().areaM2()),
            real("volume_m3", 3, sheet -> sheet.pond().volumeM3()),
            real("spilled_m3", 3, sheet -> sheet.pond().overflowM3()),
            text("spills_to", sheet -> sheet.pond().overflowTo())));
  }

  /**
   * A pond and when it stands so: with the inlets {@code open}, {@code blocked}, or in {@code
   * either} case.
   */
  private record Sheet(Pond pond, String inlets) {

    static List<Sheet> of(Result result) {
      List<Pond> open = result.standing().map(StandingWater::ponds).orElse(List.of());
      if (result.blocked().isEmpty()) {
        return open.stream().map(pond -> new Sheet(pond, "either")).toList();
      }
      Map<String, Pond> blocked =
          result.blocked().get().ponds().stream()
              .collect(Collectors.toMap(Pond::lowSpotId, Function.identity()));
      Set<String> either =
          open.stream()
              .filter(pond -> same(pond, blocked.get(pond.lowSpotId())))
              .map(Pond::lowSpotId)
              .collect(Collectors.toSet());
      // The wider sheets first, so that the others are drawn over them.
      return Stream.concat(
              result.blocked().get().ponds().stream()
                  .filter(pond -> !either.contains(pond.lowSpotId()))
                  .map(pond -> new Sheet(pond, "blocked")),
              open.stream()
                  .map(
                      pond ->
                          new Sheet(pond, either.contains(pond.lowSpotId()) ? "either" : "open")))
          .toList();
    }

    private static boolean same(Pond open, Pond blocked) {
      return blocked != null
          && Math.abs(open.levelM() - blocked.levelM()) < SAME_M
          && Math.abs(open.volumeM3() - blocked.volumeM3()) < SAME_M
          && Math.abs(open.overflowM3() - blocked.overflowM3()) < SAME_M
          && open.overflowTo().equals(blocked.overflowTo());
    }
  }
}
