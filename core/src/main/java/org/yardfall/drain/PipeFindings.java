package org.yardfall.drain;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.yardfall.pipe.Pipe;
import org.yardfall.pipe.PipeTable;
import org.yardfall.pipe.TwinPipes;
import org.yardfall.pipe.VelocityLimits;
import org.yardfall.route.Station;
import org.yardfall.site.Site;
import org.yardfall.site.UnitSystem;

/** Says in sentences why each pipe was chosen, and where it is not as it should be. */
final class PipeFindings {

  private final DrainDesign design;
  private final Site site;
  private final UnitSystem units;
  private final List<String> found = new ArrayList<>();

  private PipeFindings(DrainDesign design, Site site, UnitSystem units) {
    this.design = design;
    this.site = site;
    this.units = units;
  }

  /** The findings on a design's pipes, in the given units. */
  static List<String> of(DrainDesign design, Site site, UnitSystem units) {
    PipeFindings findings = new PipeFindings(design, site, units);
    findings.pipes();
    findings.velocity();
    findings.narrowBore();
    findings.shallow();
    findings.crossing();
    return findings.found;
  }

  /**
   * A stretch of a line.
   *
   * @param line the line
   * @param stretch the stretch
   */
  record Placed(LineDesign line, StretchDesign stretch) {}

  /** Every stretch of a design, with its line. */
  static List<Placed> stretches(DrainDesign design) {
    return design.lines().stream()
        .flatMap(l -> l.stretches().stream().map(s -> new Placed(l, s)))
        .toList();
  }

  /** The stretch that ends at the outlet. */
  static StretchDesign last(DrainDesign design) {
    List<StretchDesign> main = design.main().stretches();
    return main.get(main.size() - 1);
  }

  private void pipes() {
    Map<String, Double> lengths = new LinkedHashMap<>();
    for (Placed placed : stretches(design)) {
      StretchDesign s = placed.stretch();
      lengths.merge(s.pipe().sizeWords(), s.count() * s.lengthM(), Double::sum);
    }
    add(
        design.overloaded() || design.tooSmall().isPresent()
            ? "The pipe: %s."
            : "Each stretch of pipe is the smallest from the one planned on that carries its peak full,"
                + " and no smaller than the one upstream: %s.",
        lengths.entrySet().stream()
            .map(e -> e.getKey() + " for " + units.length(e.getValue()))
            .collect(Collectors.joining(", ")));
    Placed most =
        stretches(design).stream()
            .max(Comparator.comparingDouble(p -> p.stretch().loading()))
            .orElseThrow();
    StretchDesign s = most.stretch();
    add(
        "The most loaded stretch, %s station %s to %s, carries %s of the %s that %s takes full at"
            + " %s: %.0f %%.",
        most.line().name(),
        units.length(s.fromM()),
        units.length(s.toM()),
        units.flow(s.flowM3S()),
        units.flow(s.capacityM3S()),
        s.pipeWords(),
        UnitSystem.grade(s.grade()),
        100 * s.loading());
    if (s.loading() > 1) {
      Optional<Pipe> larger = design.tooSmall();
      found.add(
          larger.isPresent()
              ? "That is too small, and the line has no room for a larger one: it must be planned"
                  + " again with "
                  + larger.get().words()
                  + "."
              : PipeTable.next(s.pipe()).isEmpty()
                  ? "That is more than the largest yard pipe carries: split the drain, or have an"
                      + " engineer size a storm sewer."
                  : "That is too small.");
    }
    StretchDesign last = last(design);
    add(
        "By the trade's rule of thumb the outlet end would be %d in (6 in from about 200 ft of run"
            + " upstream; common practice, no source); the flow asks for %s.",
        last.tradeNominalIn(), last.pipe().words());
  }

  private void velocity() {
    Placed slow =
        stretches(design).stream()
            .min(Comparator.comparingDouble(p -> p.stretch().fullVelocityMS()))
            .orElseThrow();
    double least = VelocityLimits.leastMS(site.soil(), true);
    if (slow.stretch().fullVelocityMS() < least) {
      add(
          "At %s station %s the full pipe runs at %s a second, less than the %s that keeps it clean.",
          slow.line().name(),
          units.length(slow.stretch().fromM()),
          units.length(slow.stretch().fullVelocityMS()),
          units.length(least));
    }
    Placed fast =
        stretches(design).stream()
            .max(Comparator.comparingDouble(p -> p.stretch().velocityMS()))
            .orElseThrow();
    double most = VelocityLimits.mostMS(site.soil());
    if (fast.stretch().velocityMS() > most) {
      add(
          "At %s station %s the water runs at %s a second, more than the %s that this soil bears at"
              + " open joints: tight joints there.",
          fast.line().name(),
          units.length(fast.stretch().fromM()),
          units.length(fast.stretch().velocityMS()),
          units.length(most));
    }
  }

  /** A pipe that lies with less cover than asked, since the one upstream of it is large. */
  private void shallow() {
    Pipe planned = PipeTable.of(site.drain());
    record Least(LineDesign line, Station station, double coverM) {}
    List<Least> all = new ArrayList<>();
    for (LineDesign line : design.lines()) {
      for (int i = 0; i < line.stretches().size(); i++) {
        StretchDesign stretch = line.stretches().get(i);
        if (stretch.span() != Station.Span.BORED && stretch.pipe().insideM() > planned.insideM()) {
          for (Station end : line.line().stations().subList(i, i + 2)) {
            all.add(new Least(line, end, end.depthM() - stretch.pipe().outsideM()));
          }
        }
      }
    }
    all.stream()
        .filter(l -> l.coverM() < Math.min(site.drain().minCoverM(), l.station().coverM()) - 1e-9)
        .min(Comparator.comparingDouble(Least::coverM))
        .ifPresent(
            l ->
                add(
                    "At %s station %s the pipe, as large as the one upstream, has %s of cover, less"
                        + " than the %s asked.",
                    l.line().name(),
                    units.length(l.station().stationM()),
                    units.small(l.coverM()),
                    units.small(site.drain().minCoverM())));
  }

  /** A bore that has no room for as large a pipe as leads to it. */
  private void narrowBore() {
    for (LineDesign line : design.lines()) {
      for (int i = 1; i < line.stretches().size(); i++) {
        StretchDesign bored = line.stretches().get(i);
        Pipe above = line.stretches().get(i - 1).pipe();
        if (bored.span() == Station.Span.BORED
            && bored.count() == 1
            && bored.pipe().nominalIn() < above.nominalIn()) {
          add(
              "Under the slab at %s station %s only %s has room where %s leads to it, and at the peak"
                  + " it is %.0f %% full; a pipe should never shrink downstream, since what the wider"
                  + " one carries along sticks there: plan with a larger pipe, or move the crossing.",
              line.name(),
              units.length(bored.fromM()),
              bored.pipe().words(),
              above.words(),
              100 * bored.loading());
        }
      }
    }
  }

  /** Two 4 in pipes for one 6 in under a walk ({@code common practice, no source}). */
  private void crossing() {
    stretches(design).stream()
        .filter(p -> p.stretch().span() == Station.Span.BORED)
        .filter(p -> p.stretch().count() > 1 || p.stretch().pipe().nominalIn() == 6)
        .findFirst()
        .ifPresent(
            p -> {
              StretchDesign bored = p.stretch();
              Pipe planned = PipeTable.of(site.drain());
              Pipe one =
                  bored.count() > 1
                      ? PipeTable.solid(planned)
                      : PipeTable.find(planned.material(), false, 6)
                          .orElseGet(() -> PipeTable.solid(planned));
              Pipe same =
                  PipeTable.find(one.material(), false, 4)
                      .orElseGet(
                          () -> PipeTable.find(Pipe.Material.CORRUGATED, false, 4).orElseThrow());
              Pipe smooth = PipeTable.find(Pipe.Material.SCHEDULE_40, false, 4).orElseThrow();
              add(
                  "Under the slab at %s station %s %s: side by side they carry %.0f %% of what one"
                      + " %s does if they are the same pipe, %.0f %% if they are %s.",
                  p.line().name(),
                  units.length(bored.fromM()),
                  bored.count() > 1
                      ? "lie two 4 in pipes in place of one"
                      : "one pipe has room; two 4 in pipes could take its place",
                  100 * TwinPipes.capacityRatio(2, same, one),
                  one.words(),
                  100 * TwinPipes.capacityRatio(2, smooth, one),
                  smooth.words());
            });
  }

  private void add(String format, Object... values) {
    found.add(String.format(Locale.ROOT, format, values));
  }
}
