package org.yardfall.drain;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.yardfall.pipe.DrainInflow;
import org.yardfall.pipe.EmptyingTime;
import org.yardfall.pipe.GroundwaterInflow;
import org.yardfall.pipe.HydraulicGradeLine;
import org.yardfall.pipe.PipeTable;
import org.yardfall.route.Station;
import org.yardfall.runoff.Storm;
import org.yardfall.site.Outlet;
import org.yardfall.site.Site;
import org.yardfall.site.UnitSystem;

/** Says in sentences what a design's numbers mean: why this pipe, and what the water does. */
public final class DrainFindings {

  private final DrainDesign design;
  private final Site site;
  private final UnitSystem units;
  private final List<String> found = new ArrayList<>();

  private DrainFindings(DrainDesign design, Site site, UnitSystem units) {
    this.design = design;
    this.site = site;
    this.units = units;
  }

  /** The findings on a design, in the given units. */
  public static List<String> of(DrainDesign design, Site site, UnitSystem units) {
    DrainFindings findings = new DrainFindings(design, site, units);
    findings.water();
    findings.found.addAll(PipeFindings.of(design, site, units));
    findings.intake();
    findings.level();
    findings.emptying();
    findings.filters();
    findings.prices();
    return List.copyOf(findings.found);
  }

  /**
   * The findings on a design's pipes alone: which, why, and where they are not as they should be.
   */
  public static List<String> pipes(DrainDesign design, Site site, UnitSystem units) {
    return PipeFindings.of(design, site, units);
  }

  private void water() {
    DrainCatchment catchment = design.catchment();
    add(
        "The water of %s of ground runs to it, %s of it beyond the lot: %s of runoff; %s leaves the"
            + " outlet at the peak.",
        units.area(catchment.areaM2()),
        units.area(catchment.beyondM2()),
        units.water(catchment.volumeM3()),
        units.flow(PipeFindings.last(design).passesM3S()));
    for (DrainCatchment.Served spot : catchment.served()) {
      add(
          "It runs through low spot %s, %.0f %% of which lies beyond the lot: the water of all %s that"
              + " drain into it counts, as if it were full at the peak, though without the drain part"
              + " of it never crosses the property line.",
          spot.id(), 100 * spot.beyondShare(), units.area(spot.catchmentM2()));
    }
    groundwater();
  }

  private void groundwater() {
    if (!site.soil().groundwaterKnown()) {
      found.add(GroundwaterInflow.SURFACE_WATER_ONLY);
    } else if (design.groundwaterM3S() > 0) {
      add(
          "It draws %s of groundwater where the water table stands over its invert; that flows in the"
              + " pipe too.",
          units.seep(design.groundwaterM3S()));
    } else {
      found.add("The water table given lies below its invert: it draws no groundwater.");
    }
    if (site.soil().relief() == null) {
      return;
    }
    double asked = site.soil().relief().tableDepthM();
    if (design.relief().isPresent()) {
      ReliefDrains relief = design.relief().get();
      add(
          "Parallel drains %s deep hold the water table %s down if they lie no further than %s apart"
              + " (Hooghoudt; %s of head, equivalent depth %s).",
          units.length(relief.drainDepthM()),
          units.length(asked),
          units.length(relief.spacingM()),
          units.length(relief.headM()),
          units.length(relief.equivalentDepthM()));
    } else {
      add(
          "Parallel drains as deep as this one, %s on the mean, cannot hold the water table %s down:"
              + " they must lie deeper than that.",
          units.length(ReliefDrains.meanDepthM(design.lines())), units.length(asked));
    }
  }

  private void intake() {
    StretchDesign last = PipeFindings.last(design);
    if (last.arrivingM3S() <= last.passesM3S() * (1 + 1e-9)) {
      return;
    }
    add(
        "Of the %s that arrives at the peak the drain takes %s; the rest runs over it, as all of it"
            + " does now.",
        units.flow(last.arrivingM3S()), units.flow(last.passesM3S()));
    PipeFindings.stretches(design).stream()
        .filter(p -> p.stretch().overtopped())
        .max(
            Comparator.comparingDouble(
                p -> (p.stretch().meetsM2S() - p.stretch().intakeM2S()) * p.stretch().lengthM()))
        .ifPresent(
            p ->
                add(
                    "Most of it runs over at %s station %s to %s, where %s per %s arrives and the"
                        + " %s of the drain %s in %s: a surface inlet there would take it, and"
                        + " then needs a pipe for it.",
                    p.line().name(),
                    units.length(p.stretch().fromM()),
                    units.length(p.stretch().toM()),
                    units.flow(p.stretch().meetsM2S() * units.metresPerLengthUnit()),
                    units.lengthUnit(),
                    p.stretch().intakeLimit().name().toLowerCase(Locale.ROOT),
                    p.stretch().intakeLimit() == DrainInflow.Limit.OPENINGS ? "let" : "lets",
                    units.flow(p.stretch().intakeM2S() * units.metresPerLengthUnit())));
  }

  private void level() {
    LineDesign main = design.main();
    HydraulicGradeLine line = main.hydraulic();
    Station end = main.line().stations().get(main.line().stations().size() - 1);
    Optional<Outlet> outlet = site.outlets().stream().filter(this::isOutlet).findFirst();
    if (site.outletRules().pumped()) {
      outlet.ifPresent(this::pumped);
    } else if (outlet.isPresent() && outlet.get().waterLevelM().isPresent()) {
      double over = outlet.get().waterLevelM().getAsDouble() - end.invertM();
      if (over > 0) {
        add(
            "The water outside stands %s over the pipe's invert at the outlet and holds the drain's"
                + " water back over %s.",
            units.elevation(over), units.length(line.backwaterM()));
      }
    } else {
      found.add(
          "The water level at the outlet during the storm is not known: backwater was not checked.");
    }
    if (!site.outletRules().pumped() && outlet.isPresent() && outlet.get().lidM().isPresent()) {
      double lid = outlet.get().lidM().getAsDouble();
      double lowest = design.lowestOpenGroundM();
      add(
          lowest > lid
              ? "The outlet's lid lies %s below the lowest ground along the open drain, so the water"
                  + " can rise and open it."
              : "The outlet's lid lies %s above the lowest ground along the open drain: the yard"
                  + " floods before it opens.",
          units.elevation(Math.abs(lowest - lid)));
    }
    for (LineDesign each : design.lines()) {
      HydraulicGradeLine.Point worst = each.hydraulic().worst();
      add(
          worst.overGroundM() > 0
              ? "At the peak the water in %s would rise %s over the ground at station %s: it comes out"
                  + " there."
              : "At the peak the water in %s stays %s or more below the ground (station %s).",
          each.name(),
          units.elevation(Math.abs(worst.overGroundM())),
          units.length(worst.node().stationM()));
    }
  }

  private void pumped(Outlet outlet) {
    Pumping.atEnd(design.main(), outlet, site, Storm.of(site.storm()), design.catchment())
        .ifPresent(
            pumping ->
                add(
                    "A pump lifts its water %s: from its end, above which the float may not stand, to"
                        + " %s; its sump holds %s for %s without power.",
                    units.elevation(pumping.liftM()),
                    pumping.discharge().words(),
                    units.water(pumping.storedM3()),
                    hours(pumping.outageH() * 3600)));
  }

  private boolean isOutlet(Outlet outlet) {
    return outlet.id().equals(design.outletId());
  }

  private void emptying() {
    EmptyingTime time = design.emptying();
    String limit =
        switch (time.slowest()) {
          case PIPE -> "the pipe";
          case STONE -> "fabric, stone and openings";
          case SOIL -> "the soil, through which the water lower than the drain has to soak";
        };
    if (Double.isInfinite(time.seconds())) {
      add("Standing water does not leave: %s lets none through.", limit);
    } else {
      add(
          "What stands in the low spots and the stone after the storm is gone in %s; the slowest is"
              + " %s.",
          hours(time.seconds()), limit);
    }
  }

  private static String hours(double seconds) {
    return seconds < 5400
        ? String.format(Locale.ROOT, "%.0f minutes", Math.ceil(seconds / 60))
        : seconds < 48 * 3600
            ? String.format(Locale.ROOT, "%.1f hours", seconds / 3600)
            : String.format(Locale.ROOT, "%.1f days", seconds / 86_400);
  }

  private void filters() {
    design.filters().stream()
        .filter(c -> !c.passed())
        .forEach(
            c ->
                found.add(
                    c.words()
                        + (c.name().startsWith("stone without fabric")
                            ? ": the fabric is needed."
                            : ".")));
  }

  private void prices() {
    TakeOff bill = design.takeOff();
    double more = bill.largerPipes();
    if (bill.complete()) {
      add(
          "It was ranked at %.0f, by net quantities and %s throughout;%s what is bought comes to"
              + " %.0f, since rolls, lengths and stone are rounded up and reducers, couplings,"
              + " clean-outs and the like come on top.",
          bill.netTotal() - more,
          PipeTable.of(site.drain()).words(),
          Math.abs(more) < 0.5
              ? ""
              : String.format(
                  Locale.ROOT,
                  " larger pipes, in the place of stone and in a deeper trench, make it %.0f %s;",
                  Math.abs(more),
                  more < 0 ? "less" : "more"),
          bill.total());
    }
    if (!design.takeOff().missing().isEmpty()) {
      add(
          "No price was given for %s: their quantities stand without an amount.",
          String.join(
              ", ",
              design.takeOff().missing().stream()
                  .map(i -> i.name().toLowerCase(Locale.ROOT).replace('_', '-'))
                  .toList()));
    }
  }

  private void add(String format, Object... values) {
    found.add(String.format(Locale.ROOT, format, values));
  }
}
