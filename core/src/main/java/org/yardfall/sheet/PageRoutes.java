package org.yardfall.sheet;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.DrainFindings;
import org.yardfall.drain.TakeOff;
import org.yardfall.layer.CleanText;
import org.yardfall.layer.LayerStyle;
import org.yardfall.layer.Result;
import org.yardfall.route.DrainKind;
import org.yardfall.route.Rejection;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.site.UnitSystem;

/** The routes of the review page, with their profiles and quantities, and what was rejected. */
final class PageRoutes {

  private static final double MM = 1000;

  private final Result result;
  private final UnitSystem units;
  private final PageShapes shapes;
  private final Wording wording;

  PageRoutes(Result result, UnitSystem units, PageShapes shapes) {
    this.result = result;
    this.units = units;
    this.shapes = shapes;
    this.wording = new Wording(result, units);
  }

  void write(ObjectNode page) {
    ArrayNode routes = page.putArray("routes");
    result.routes().forEach(route -> route(routes.addObject(), route));
    ArrayNode rejected = page.putArray("rejected");
    result.plan().rejected().forEach(each -> rejected(rejected.addObject(), each));
  }

  private void route(ObjectNode node, Route route) {
    Optional<DrainDesign> design =
        result.designs().stream().filter(d -> d.routeId().equals(route.id())).findFirst();
    node.put("id", route.id()).put("kind", words(route.kind()));
    node.put("color", colour(route.kind()));
    ArrayNode facts = node.putArray("facts");
    RouteFacts.of(result, route, units)
        .forEach((name, value) -> facts.addArray().add(name).add(CleanText.of(value)));
    ObjectNode after = node.putObject("after");
    result
        .effect(route)
        .ifPresent(
            effect ->
                effect
                    .stretches()
                    .forEach(
                        change -> after.put(change.before().id(), units.water(change.afterM3()))));
    texts(node.putArray("crosses"), wording.onPage(route.crosses()));
    texts(node.putArray("reasons"), wording.onPage(route.reasons()));
    texts(
        node.putArray("findings"),
        design
            .map(d -> wording.onPage(DrainFindings.of(d, result.site(), units)))
            .orElse(List.of()));
    quantities(node.putArray("quantities"), design);
    ArrayNode lines = node.putArray("lines");
    ProfileLine.of(result, route).forEach(line -> line(lines.addObject(), line));
  }

  private void line(ObjectNode node, ProfileLine line) {
    node.put("name", line.name());
    ArrayNode stations = node.putArray("stations");
    for (int i = 0; i < line.line().stations().size(); i++) {
      Station s = line.line().stations().get(i);
      ObjectNode at = stations.addObject();
      at.put("s", mm(s.stationM())).put("x", shapes.east(s.x())).put("y", shapes.north(s.y()));
      at.put("ground", mm(s.groundM())).put("invert", mm(s.invertM()));
      at.put("pipe", mm(line.outsideM().get(Math.min(i, line.outsideM().size() - 1))));
      at.put("span", s.span().name().toLowerCase(Locale.ROOT));
      ArrayNode row = at.putArray("row");
      row.add(Stationing.station(s.stationM(), units));
      row.add(Stationing.bare(s.groundM(), units)).add(Stationing.bare(s.invertM(), units));
      row.add(Stationing.depth(s.depthM(), units)).add(Stationing.depth(s.coverM(), units));
      row.add(UnitSystem.grade(s.grade()));
      row.add(s.span().name().toLowerCase(Locale.ROOT));
    }
    levels(node.putArray("ground"), line.ground());
    levels(node.putArray("water"), line.water());
    ArrayNode marks = node.putArray("marks");
    for (ProfileLine.Mark mark : line.marks()) {
      ObjectNode at = marks.addObject();
      at.put("s", mm((mark.fromM() + mark.toM()) / 2)).put("label", CleanText.of(mark.label()));
      mark.bottomM().ifPresent(bottom -> at.put("bottom", mm(bottom)));
    }
  }

  private static void levels(ArrayNode to, List<ProfileLine.At> levels) {
    levels.forEach(at -> to.addArray().add(mm(at.stationM())).add(mm(at.levelM())));
  }

  private void quantities(ArrayNode rows, Optional<DrainDesign> design) {
    for (TakeOff.Line line : design.map(d -> d.takeOff().lines()).orElse(List.of())) {
      rows.addArray()
          .add(CleanText.of(wording.ofEarth(line.item())))
          .add(quantity(line, units))
          .add(CleanText.of(wording.ofEarth(reckoning(line))));
    }
  }

  /** How a quantity follows from the design, and what is bought for it. */
  static String reckoning(TakeOff.Line line) {
    return line.sold() > line.needed() + 1e-9 ? line.how() + "; " + line.rule() : line.how();
  }

  /** The price of a unit in which an item is counted; empty where none was given. */
  static OptionalDouble unitPrice(TakeOff.Line line, UnitSystem units) {
    return line.unitPrice().stream().map(p -> line.measure().price(units, p)).findFirst();
  }

  /** What is bought of an item, with its unit. */
  static String quantity(TakeOff.Line line, UnitSystem units) {
    boolean each = line.measure() == TakeOff.Measure.COUNT;
    return String.format(
        Locale.ROOT,
        each ? "%.0f %s" : "%.1f %s",
        line.measure().quantity(units, line.sold()),
        line.measure().unit(units));
  }

  static String lastPipe(DrainDesign design) {
    var stretches = design.main().stretches();
    return stretches.isEmpty() ? "–" : stretches.get(stretches.size() - 1).pipeWords();
  }

  static String price(DrainDesign design) {
    if (!design.takeOff().priced()) {
      return "no unit prices given";
    }
    String total = String.format(Locale.ROOT, "%,.0f", design.takeOff().total());
    return design.takeOff().complete() ? total : total + " and what bears no price";
  }

  private void rejected(ObjectNode node, Rejection each) {
    node.put("id", each.id()).put("kind", words(each.kind()));
    node.put("outlet", CleanText.of(each.outletId())).put("why", wording.onPage(each.sentence()));
    ArrayNode relax = node.putArray("relax");
    each.relax().forEach(r -> relax.add(relaxation(r)));
  }

  private String relaxation(Rejection.Relaxation relax) {
    String by =
        relax.unit().equals("m") ? units.elevation(relax.by()) : UnitSystem.grade(relax.by());
    return switch (relax.limit()) {
      case "outlet" -> "an outlet " + by + " lower";
      case "max-depth" -> "digging " + by + " deeper";
      case "min-cover" -> by + " less cover";
      case "min-grade" -> "a grade down to " + by;
      default -> relax.limit() + " by " + by;
    };
  }

  static String words(DrainKind kind) {
    return kind.word().replace('-', ' ') + " drain";
  }

  private static String colour(DrainKind kind) {
    return LayerStyle.of("drains").rules().stream()
        .filter(rule -> rule.test().map(t -> t.value().equals(kind.word())).orElse(true))
        .findFirst()
        .orElseThrow()
        .symbol()
        .stroke();
  }

  static void texts(ArrayNode to, List<String> texts) {
    texts.forEach(text -> to.add(CleanText.of(text)));
  }

  private static double mm(double metres) {
    return Math.rint(metres * MM) / MM;
  }
}
