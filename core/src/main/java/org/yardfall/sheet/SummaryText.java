package org.yardfall.sheet;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.locationtech.jts.geom.Geometry;
import org.yardfall.drain.DrainDesign;
import org.yardfall.drain.DrainFindings;
import org.yardfall.layer.Result;
import org.yardfall.route.DrainKind;
import org.yardfall.route.Rejection;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.runoff.DrainEffect;
import org.yardfall.site.Assumption;
import org.yardfall.site.Outlet;
import org.yardfall.site.Parcel;
import org.yardfall.site.UnitSystem;
import org.yardfall.water.Freeboard;
import org.yardfall.water.LowSpot;
import org.yardfall.water.StandingWater;
import org.yardfall.water.StandingWater.Pond;

/** The few lines that a person reads on the terminal: what the water does, what to build, why. */
public final class SummaryText {

  private static final int WRAP = 96;
  private static final int LISTED = 6;

  /** A low spot that stands no more than this deeper, in metres, reads the same. */
  private static final double DEEPER_M = 0.005;

  private static final Pattern SPACES = Pattern.compile(" +");

  private final Result result;
  private final UnitSystem units;
  private final Wording wording;
  private final StringBuilder out = new StringBuilder();

  private SummaryText(Result result, UnitSystem units) {
    this.result = result;
    this.units = units;
    this.wording = new Wording(result, units);
  }

  /** The summary of a whole job. */
  public static String ofPlan(Result result, UnitSystem units) {
    SummaryText text = new SummaryText(result, units);
    text.heading();
    text.water();
    text.drain();
    text.others();
    text.notes();
    return text.out.toString();
  }

  /** The summary of the surface water alone. */
  public static String ofWater(Result result, UnitSystem units) {
    SummaryText text = new SummaryText(result, units);
    text.heading();
    text.water();
    text.notes();
    return text.out.toString();
  }

  private void heading() {
    String lot = result.site().lot().map(parcel -> "lot " + plain(parcel.id())).orElse("");
    String name = plain(result.site().name());
    String heading = name + (name.isEmpty() || lot.isEmpty() ? "" : ", ") + lot;
    if (!heading.isEmpty()) {
      paragraph(heading);
    }
  }

  private void water() {
    StringBuilder say = new StringBuilder("Water: ");
    List<BoundaryFlow> in = result.flows().stream().filter(BoundaryFlow::enters).toList();
    if (result.site().lot().isPresent()) {
      if (in.isEmpty()) {
        say.append("none arrives from beyond the lot. ");
      } else {
        BoundaryFlow most =
            in.stream().max(Comparator.comparingDouble(BoundaryFlow::volumeM3)).orElseThrow();
        double volume = in.stream().mapToDouble(BoundaryFlow::volumeM3).sum();
        boolean atLeast = in.stream().anyMatch(BoundaryFlow::atLeast);
        say.append("in ")
            .append(result.ledger().orElseThrow().storm().words(units))
            .append(' ')
            .append(atLeast ? "at least " : "")
            .append(units.water(volume))
            .append(" arrives across ")
            .append(count(in.size(), "stretch", "stretches"))
            .append(" of the property line, most of it (")
            .append(units.water(most.volumeM3()))
            .append(", ")
            .append(units.flow(most.peakM3S()))
            .append(" at peak) from ")
            .append(
                most.neighbour().isEmpty()
                    ? "ground in no parcel"
                    : "parcel " + plain(most.neighbour()))
            .append(" over ")
            .append(units.length(most.widthM()))
            .append(". ")
            .append(FlowOrigin.sentence(most, units, SummaryText::plain));
      }
    }
    List<LowSpot> spots = lowSpotsAsked();
    if (spots.isEmpty()) {
      say.append("No closed low spot. ");
    } else {
      LowSpot largest = spots.get(0);
      say.append(count(spots.size(), "low spot", "low spots"))
          .append("; the largest, ")
          .append(largest.id())
          .append(", holds ")
          .append(units.water(largest.volumeM3()))
          .append(" at ")
          .append(units.elevation(largest.depthM()))
          .append(" deep over ")
          .append(units.area(largest.areaM2()))
          .append(
              largest.doubtful().isEmpty()
                  ? ". "
                  : " (doubtful: " + wording.of(largest.doubtful()) + "). ");
    }
    result.standing().ifPresent(standing -> say.append(standing(standing, spots)));
    result
        .blocked()
        .ifPresent(blocked -> say.append(blocked(result.standing().orElseThrow(), blocked, spots)));
    say.append(freeboard(spots));
    paragraph(say.toString());
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
                    + plain(least.lot().parcelId())
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
        + (more > 0 ? "; and " + count(more, "low spot", "low spots") + " more" : "")
        + ".";
  }

  private String blocked(Pond pond, double beforeM) {
    String over =
        pond.overflowTo().isEmpty() ? " over its spill" : " over its spill to " + pond.overflowTo();
    return pond.lowSpotId()
        + " stands "
        + units.elevation(pond.depthM())
        + " deep instead of "
        + units.elevation(beforeM)
        + (pond.overflowM3() > 0 ? ", " + units.water(pond.overflowM3()) + over : "");
  }

  /** The low spots on the lot, or all where no lot is asked. */
  private List<LowSpot> lowSpotsAsked() {
    Optional<Geometry> lot = result.site().lot().map(Parcel::outline);
    return result.water().lowSpots().stream()
        .filter(spot -> spot.parentId().isEmpty())
        .filter(spot -> lot.isEmpty() || lot.get().intersects(spot.outline()))
        .toList();
  }

  private void drain() {
    if (result.routes().isEmpty()) {
      paragraph("Drain: none can be proposed.");
      result.plan().rejected().stream()
          .sorted(Comparator.comparingDouble(r -> r.shortfallM().orElse(Double.MAX_VALUE)))
          .limit(LISTED)
          .forEach(this::rejection);
      return;
    }
    Route best = result.routes().get(0);
    double shallowest =
        // Where a pipe comes to daylight in a bank its end lies above the ground before it.
        Math.max(
            0, best.main().stations().stream().mapToDouble(Station::depthM).min().orElseThrow());
    StringBuilder say = new StringBuilder("Drain: ");
    say.append(best.id())
        .append(", ")
        .append(best.kind().words())
        .append(" of ")
        .append(units.length(best.lengthM()))
        .append(" that falls ")
        .append(units.elevation(best.fallM()))
        .append(" to ")
        .append(outlet(best.outletId()))
        .append("; least grade ")
        .append(UnitSystem.grade(best.minGrade()))
        .append(", ")
        .append(count(best.gradeBreaks(), "grade break", "grade breaks"))
        .append(", depth to invert ")
        .append(units.length(shallowest))
        .append(" to ")
        .append(units.length(best.maxDepthM()))
        .append(", least cover ")
        .append(units.length(best.minCoverM()))
        .append(". ")
        .append(
            best.crosses().isEmpty()
                ? "It crosses nothing. "
                : "It passes " + String.join("; ", wording.of(best.crosses())) + ". ")
        .append("Audit: ")
        .append(best.audit().passed() ? "passed" : "FAILED")
        .append(" (")
        .append(count(best.audit().checks().size(), "check", "checks"))
        .append("). ")
        .append(sentences(wording.of(best.reasons())));
    paragraph(say.toString());
    result
        .design(best)
        .ifPresent(
            d ->
                paragraph(
                    String.join(" ", DrainFindings.pipes(d, result.site(), units))
                        + (d.takeOff().total() > 0
                            ? " What is bought comes to " + PageRoutes.price(d) + " (take-off.csv)."
                            : "")));
    result.effect(best).ifPresent(this::effect);
    result
        .design(best)
        .flatMap(DrainDesign::overland)
        .ifPresent(way -> paragraph(sentences(List.of(wording.of(way.sentence())))));
  }

  /** What the drain changes for whom, as the ground tells it; says nothing of who is answerable. */
  private void effect(DrainEffect effect) {
    double before = effect.before().balance().outflowM3();
    double after = effect.after().balance().outflowM3();
    String rises =
        effect.anyRises()
            ? "some neighbour receives more, faster or more concentrated water than before:"
                + " results.json says who"
            : "no neighbour receives more, faster or more concentrated water than before";
    paragraph(
        "With the drain "
            + units.water(after)
            + " leaves the lot over the ground in the design storm, without it "
            + units.water(before)
            + "; "
            + rises
            + ".");
  }

  private void others() {
    for (Route route :
        result
            .routes()
            .subList(Math.min(1, result.routes().size()), Math.min(4, result.routes().size()))) {
      paragraph(
          "Also "
              + route.id()
              + ": "
              + route.kind().word()
              + ", "
              + units.length(route.lengthM())
              + " to "
              + outlet(route.outletId())
              + ", deepest "
              + units.length(route.maxDepthM())
              + ".");
    }
    if (!result.routes().isEmpty()) {
      rejectedBeside();
    }
  }

  /**
   * Beside a drain: which kinds are not needed; a warning tells of drawn lines that do not work.
   */
  private void rejectedBeside() {
    int others = 0;
    for (Rejection each : result.plan().rejected()) {
      if (each.kind() == DrainKind.PINNED) {
        continue;
      }
      if (each.outletId().isEmpty()) {
        paragraph("No " + each.kind().word() + " drain: " + wording.of(each.sentence()) + ".");
      } else {
        others++;
      }
    }
    if (others > 0) {
      paragraph(count(others, "other was", "others were") + " rejected; results.json says why.");
    }
  }

  private void rejection(Rejection rejection) {
    String shortfall =
        rejection.shortfallM().isPresent()
            ? ". Shortfall: " + units.elevation(rejection.shortfallM().getAsDouble()) + "."
            : ".";
    paragraph(
        rejection.id()
            + " ("
            + rejection.kind().word()
            + "): "
            + wording.of(rejection.sentence())
            + shortfall);
  }

  private void notes() {
    for (String warning : result.warnings()) {
      paragraph("Warning: " + wording.of(warning));
    }
    result.routes().stream()
        .limit(1)
        .flatMap(best -> result.cautions(best, units).stream())
        .forEach(caution -> paragraph("Caution: " + wording.of(caution)));
    List<Assumption> assumed = result.assumptions();
    if (!assumed.isEmpty()) {
      paragraph(
          count(assumed.size(), "assumption", "assumptions") + " made; results.json lists them.");
    }
  }

  private String outlet(String id) {
    return result.outlets().stream()
            .filter(outlet -> outlet.id().equals(id))
            .map(Outlet::kind)
            .map(Outlet.Kind::word)
            .map(word -> word.replace('-', ' ') + " ")
            .findFirst()
            .orElse("")
        + plain(id);
  }

  private static String sentences(List<String> reasons) {
    return reasons.stream()
        .filter(reason -> !reason.isEmpty())
        .map(reason -> Character.toUpperCase(reason.charAt(0)) + reason.substring(1) + ".")
        .collect(Collectors.joining(" "));
  }

  private static String count(int n, String one, String many) {
    return n + " " + (n == 1 ? one : many);
  }

  /** Text from outside, without anything that could steer a terminal. */
  static String plain(String text) {
    String clean = text.replaceAll("[\\p{Cc}\\p{Cf}\\p{Zl}\\p{Zp}]", "?");
    return clean.length() <= 60 ? clean : clean.substring(0, 57) + "...";
  }

  /** Lines of words; names from outside stand in the stages' sentences too. */
  private void paragraph(String text) {
    int column = 0;
    for (String given : SPACES.split(text.strip(), -1)) {
      String word = plain(given);
      if (column > 0 && column + 1 + word.length() > WRAP) {
        out.append("\n  ");
        column = 2;
      } else if (column > 0) {
        out.append(' ');
        column++;
      }
      out.append(word);
      column += word.length();
    }
    out.append('\n');
  }
}
