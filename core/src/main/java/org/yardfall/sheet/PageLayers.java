package org.yardfall.sheet;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.drain.DrainDesign;
import org.yardfall.elevation.Contour;
import org.yardfall.layer.CleanText;
import org.yardfall.layer.Feature;
import org.yardfall.layer.Layer;
import org.yardfall.layer.LayerSet;
import org.yardfall.layer.LayerStyle;
import org.yardfall.layer.Result;
import org.yardfall.layer.Symbol;
import org.yardfall.route.Rejection;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.site.LevelledSwale;
import org.yardfall.site.Obstacle;
import org.yardfall.site.Outlet;
import org.yardfall.site.Parcel;
import org.yardfall.site.Seep;
import org.yardfall.site.UnitSystem;
import org.yardfall.water.Catchment;
import org.yardfall.water.FlowPath;
import org.yardfall.water.LowSpot;
import org.yardfall.water.StandingWater;

/**
 * The layers of the review page's map that are switched on and off, and the arrows of its flows.
 */
final class PageLayers {

  private static final GeometryFactory GEOMETRIES = new GeometryFactory();

  private static final Symbol CONTOUR =
      new Symbol(Optional.empty(), 0, "#8A6F4A", 0.8, false, "", 0);
  private static final Symbol PARCEL = new Symbol(Optional.empty(), 0, "#555555", 1, false, "", 0);

  /** Depth is a picture of its own, which must be seen through these. */
  private static final Symbol STANDING = clear("standing", 0);

  private static final Symbol LOW_SPOT = clear("low_spots", 0.12);

  private static final Symbol REJECTED = new Symbol(Optional.empty(), 0, "#000000", 2, true, "", 0);

  private final Result result;
  private final UnitSystem units;
  private final PageShapes shapes;
  private final Wording wording;
  private ArrayNode layers;

  PageLayers(Result result, UnitSystem units, PageShapes shapes) {
    this.result = result;
    this.units = units;
    this.shapes = shapes;
    this.wording = new Wording(result, units);
  }

  void write(ObjectNode page) {
    layers = page.putArray("layers");
    ground();
    water();
    site();
    rejected();
    flows(page.putArray("flows"));
  }

  private void ground() {
    Envelope window = SiteExtent.photo(result);
    DrawnContours drawn = DrawnContours.of(result.terrain().ground(), window, units);
    ArrayNode contours =
        PageShapes.layer(
            layers, "contours", "Contours, " + units.elevation(drawn.stepM()) + " apart", false);
    for (Contour contour : drawn.lines()) {
      shapes.add(
          contours,
          contour.line(),
          CONTOUR,
          List.of("Ground " + units.elevation(contour.elevationM())));
    }
    ArrayNode catchments = PageShapes.layer(layers, "catchments", "Catchment of the lot", false);
    for (Catchment catchment : result.water().catchments()) {
      add(
          catchments,
          "catchments",
          catchment.outline(),
          "Drains to " + catchment.of(),
          units.area(catchment.areaM2()),
          catchment.cutOff().isEmpty() ? "" : "cut off by the raster's end: " + catchment.cutOff());
    }
    LayerSet all = LayerSet.of(result);
    Layer reach = all.layer("reach");
    ArrayNode fits =
        PageShapes.layer(layers, "reach", "Where a drain can fall to an outlet", false);
    LayerStyle style = LayerStyle.of("reach");
    for (Feature feature : reach.features()) {
      shapes.add(
          fits,
          feature.geometry(),
          style.rules().get(style.ruleFor(reach, feature)).symbol(),
          reachTip(reach, feature));
    }
    Layer lines = all.layer("reach_lines");
    for (Feature feature : lines.features()) {
      shapes.add(
          fits,
          feature.geometry(),
          LayerStyle.of("reach_lines").rules().get(0).symbol(),
          List.of(
              "Room in height " + units.elevation(number(lines, feature, "room_m")),
              "a pipe up to " + units.length(number(lines, feature, "deepest_m")) + " deep"));
    }
  }

  private List<String> reachTip(Layer reach, Feature feature) {
    if (feature.values().get(reach.indexOf("room_lo_m")) != null) {
      return List.of(
          "To " + feature.values().get(reach.indexOf("outlet")),
          "room in height "
              + units.length(number(reach, feature, "room_lo_m"))
              + " or more: a pipe "
              + units.length(number(reach, feature, "deep_lo_m"))
              + " deep still falls to it",
          "lowest invert "
              + units.elevation(number(reach, feature, "invert_lo"))
              + " to "
              + units.elevation(number(reach, feature, "invert_hi")));
    }
    List<String> tip = new ArrayList<>(List.of("No pipe falls from here to an outlet"));
    mend(tip, reach, feature, "by_outlet", "the outlet %s lower");
    mend(tip, reach, feature, "by_depth", "%s more depth");
    mend(tip, reach, feature, "by_cover", "%s less cover");
    Object grade = feature.values().get(reach.indexOf("to_grade"));
    if (grade != null) {
      tip.add("it would with a least grade of " + UnitSystem.grade(((Number) grade).doubleValue()));
    }
    if (tip.size() == 1) {
      tip.add("no limit relaxed alone would mend it");
    }
    return tip;
  }

  private void mend(List<String> tip, Layer reach, Feature feature, String field, String words) {
    if (feature.values().get(reach.indexOf(field)) != null) {
      tip.add(
          "it would with "
              + String.format(
                  Locale.ROOT, words, "up to " + units.elevation(number(reach, feature, field))));
    }
  }

  private static double number(Layer layer, Feature feature, String field) {
    return ((Number) feature.values().get(layer.indexOf(field))).doubleValue();
  }

  private void water() {
    ArrayNode spots = PageShapes.layer(layers, "low_spots", "Low spots", true);
    for (LowSpot spot : result.water().lowSpots()) {
      if (spot.parentId().isEmpty()) {
        add(
            spots,
            LOW_SPOT,
            spot.outline(),
            "Low spot "
                + spot.id()
                + (spot.doubtful().isEmpty()
                    ? ""
                    : " (doubtful: " + wording.of(spot.doubtful()) + ")"),
            units.elevation(spot.depthM()) + " deep, " + units.area(spot.areaM2()),
            "holds "
                + units.water(spot.volumeM3())
                + ", spills at "
                + units.elevation(spot.spillM())
                + String.format(
                    Locale.ROOT, " toward %.0f° from grid north", spot.spillBearingDeg()));
      }
    }
    ArrayNode standing = PageShapes.layer(layers, "standing", "Standing water", true);
    for (StandingWater.Pond pond : result.standing().map(StandingWater::ponds).orElse(List.of())) {
      add(
          standing,
          STANDING,
          pond.outline(),
          "Water stands in " + pond.lowSpotId(),
          units.elevation(pond.depthM()) + " deep, " + units.water(pond.volumeM3()));
    }
    if (result.blocked().isPresent()) {
      ArrayNode blocked =
          PageShapes.layer(layers, "blocked", "Standing water if every inlet is blocked", false);
      for (StandingWater.Pond pond : result.blocked().get().ponds()) {
        add(
            blocked,
            "standing",
            pond.outline(),
            "With the inlets blocked water stands in " + pond.lowSpotId(),
            units.elevation(pond.depthM()) + " deep, " + units.water(pond.volumeM3()));
      }
    }
    ArrayNode paths = PageShapes.layer(layers, "flow_paths", "Flow paths", true);
    for (FlowPath path : result.water().flowPaths()) {
      add(
          paths,
          "flow_paths",
          path.line(),
          "Flow path " + path.id() + (path.undetermined() ? ", direction unsure" : ""),
          (path.atLeast() ? "at least " : "") + units.area(path.areaM2()) + " drains through it");
    }
    ArrayNode overland =
        PageShapes.layer(layers, "overland", "Overland flow if a drain is blocked", false);
    for (DrainDesign design : result.designs()) {
      design
          .overland()
          .ifPresent(
              way ->
                  add(
                      overland,
                      "overland",
                      way.line(),
                      design.routeId(),
                      wording.of(way.sentence())));
    }
  }

  private void site() {
    ArrayNode parcels = PageShapes.layer(layers, "parcels", "Other property lines", true);
    for (Parcel parcel : result.site().parcels()) {
      shapes.add(parcels, parcel.outline(), PARCEL, List.of("Parcel " + parcel.id()));
    }
    ArrayNode things =
        PageShapes.layer(layers, "obstacles", "Buildings, slabs and obstacles", true);
    result
        .site()
        .crossings()
        .forEach(slab -> addRule(things, "slab", slab.outline(), "Slab " + slab.id()));
    result
        .site()
        .buildings()
        .forEach(house -> addRule(things, "building", house.outline(), "Building " + house.id()));
    for (Obstacle obstacle : result.site().obstacles()) {
      Geometry area =
          obstacle.clearanceM() > 0
              ? obstacle.shape().buffer(obstacle.clearanceM())
              : obstacle.shape();
      addRule(
          things,
          "other",
          area,
          obstacle.kind().name().toLowerCase(java.util.Locale.ROOT).replace('_', ' ')
              + " "
              + obstacle.id(),
          obstacle.rockDepthM().isPresent()
              ? units.length(obstacle.rockDepthM().getAsDouble()) + " down"
              : "clearance " + units.length(obstacle.clearanceM()));
    }
    for (LevelledSwale swale : result.site().levelled()) {
      add(things, "levelled", swale.outline(), "Swale " + swale.id() + ", to be levelled");
    }
    for (Seep seep : result.site().seeps()) {
      addRule(things, "other", seep.shape().buffer(0.5), "Wet patch " + seep.id());
    }
    Layer daylight = LayerSet.of(result).layer("daylight");
    ArrayNode zone =
        PageShapes.layer(layers, "daylight", "Where a pipe may come to daylight", false);
    for (Feature feature : daylight.features()) {
      add(
          zone,
          "daylight",
          feature.geometry(),
          "Far enough from house, line and right-of-way for a pipe's end",
          units.area(number(daylight, feature, "area_m2")));
    }
    ArrayNode lot = PageShapes.layer(layers, "lot", "Property line of the lot", true);
    result
        .site()
        .lot()
        .ifPresent(
            l -> add(lot, "lot", l.outline(), "Lot " + l.id(), units.area(l.outline().getArea())));
    ArrayNode outlets = PageShapes.layer(layers, "outlets", "Outlets", true);
    java.util.stream.Stream.concat(result.site().outlets().stream(), result.plan().found().stream())
        .forEach(outlet -> outlet(outlets, outlet));
  }

  private void outlet(ArrayNode outlets, Outlet outlet) {
    Geometry place = GEOMETRIES.createPoint(outlet.at());
    add(
        outlets,
        "outlets",
        place,
        "Outlet " + outlet.id() + ", " + outlet.kind().word().replace('-', ' '),
        outlet.invertM().isPresent()
            ? "invert " + units.elevation(outlet.invertM().getAsDouble())
            : "invert not given",
        outlet.permitNote());
  }

  private void rejected() {
    ArrayNode lines =
        PageShapes.layer(
            layers,
            "rejected",
            "Lines that were rejected",
            !result.plan().rejectedAsDrawn().isEmpty());
    for (Rejection each : result.plan().rejected()) {
      if (each.vertices().size() > 1) {
        shapes.add(
            lines,
            GEOMETRIES.createLineString(each.vertices().toArray(Coordinate[]::new)),
            REJECTED,
            List.of(each.id() + ", " + each.kind().word(), wording.of(each.sentence())));
      }
    }
  }

  /** Arrows across the property line; {@code share} is a part of the greatest volume. */
  private void flows(ArrayNode flows) {
    double most = result.flows().stream().mapToDouble(BoundaryFlow::volumeM3).max().orElse(0);
    for (BoundaryFlow flow : result.flows()) {
      ObjectNode node = flows.addObject();
      node.put("id", flow.id()).put("in", flow.enters()).put("bearing", flow.bearingDeg());
      node.put("share", most > 0 ? flow.volumeM3() / most : 0);
      node.put("neighbour", CleanText.of(flow.neighbour()));
      node.put("volume", (flow.atLeast() ? "≥ " : "") + units.water(flow.volumeM3()));
      shapes.point(node.putArray("at"), flow.at().x, flow.at().y);
      shapes.add(
          node.putArray("stretch"),
          flow.stretch(),
          LayerStyle.of("inflow").rules().get(flow.enters() ? 0 : 1).symbol(),
          List.of());
    }
  }

  /** A layer's symbol, filled less. */
  private static Symbol clear(String layer, double opacity) {
    Symbol s = LayerStyle.of(layer).rules().get(0).symbol();
    return new Symbol(s.fill(), opacity, s.stroke(), s.widthPx(), s.dashed(), s.mark(), s.sizePx());
  }

  private void add(ArrayNode features, String layer, Geometry geometry, String... tip) {
    add(features, LayerStyle.of(layer).rules().get(0).symbol(), geometry, tip);
  }

  private void addRule(ArrayNode features, String kind, Geometry geometry, String... tip) {
    add(
        features,
        LayerStyle.of("obstacles").rules().stream()
            .filter(r -> r.test().map(t -> t.value().equals(kind)).orElse(true))
            .findFirst()
            .orElseThrow()
            .symbol(),
        geometry,
        tip);
  }

  private void add(ArrayNode features, Symbol symbol, Geometry geometry, String... tip) {
    shapes.add(
        features,
        geometry,
        symbol,
        java.util.Arrays.stream(tip).filter(line -> line != null && !line.isBlank()).toList());
  }
}
