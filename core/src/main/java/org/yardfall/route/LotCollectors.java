package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.site.Assumption;
import org.yardfall.site.Site;
import org.yardfall.water.LevelledGround.Swale;
import org.yardfall.water.LowSpot;
import org.yardfall.water.SurfaceWater;

/** What the drains of a lot could take their water from, a collector of each kind. */
final class LotCollectors {

  /** Distances in metres by which a line moves out if it comes too near a footing. */
  private static final double[] EXTRA_M = {0.5, 1.0};

  private final Site site;
  private final ElevationGrid ground;
  private final SurfaceWater water;
  private final List<LowSpot> lowSpots;
  private final List<Swale> swales;
  private final UphillInterceptor interceptor;

  LotCollectors(
      Site site,
      ElevationGrid ground,
      SurfaceWater water,
      List<LowSpot> lowSpots,
      List<Swale> swales) {
    this.site = site;
    this.ground = ground;
    this.water = water;
    this.lowSpots = lowSpots;
    this.swales = swales;
    this.interceptor = new UphillInterceptor(site, ground);
  }

  /** All of them, those included that have no line and say why. */
  List<Collector> find(List<BoundaryFlow> flows) {
    List<Collector> all = new ArrayList<>();
    all.add(PerimeterCollector.find(site, ground, flows, lowSpots));
    all.add(curtain(0));
    all.add(LowSpotCollector.find(site, water, lowSpots));
    if (!swales.isEmpty()) {
      all.add(SwaleCollector.find(site, ground, swales));
    }
    if (!site.seeps().isEmpty()) {
      all.add(interceptor.find(0));
    }
    return all;
  }

  private Collector curtain(double extraM) {
    return CurtainCollector.find(
        site, ground, water, lowSpots, site.drain().fromBuildingM() + extraM);
  }

  /**
   * The same collector further off a footing that it comes too near; empty where it cannot be moved
   * so or has been often enough.
   *
   * @param times how often it has been moved before
   */
  Optional<Collector> moved(Collector collector, int times) {
    if (times >= EXTRA_M.length) {
      return Optional.empty();
    }
    return switch (collector.kind()) {
      case CURTAIN -> Optional.of(curtain(EXTRA_M[times])).filter(c -> !c.isEmpty());
      case INTERCEPTOR -> Optional.of(interceptor.find(EXTRA_M[times])).filter(c -> !c.isEmpty());
      default -> Optional.empty();
    };
  }

  /** The ground on which a collector's drain is planned. */
  RouteGround on(Collector collector, RouteGround plain) {
    return collector.kind() == DrainKind.INTERCEPTOR ? interceptor.on(plain) : plain;
  }

  /** What was assumed about them. */
  List<Assumption> assumptions() {
    return interceptor.assumptions();
  }

  /** What the builder of a collector must be told. */
  static List<String> cautions(Collector collector) {
    boolean drawnForSeep = collector.kind() == DrainKind.PINNED && !collector.serves().isEmpty();
    return switch (collector.kind()) {
      case CURTAIN ->
          List.of(
              "keep roof water out of the perforated drain: lead it off in solid pipe of its own,"
                  + " joined only downstream of the house");
      case INTERCEPTOR -> List.of(UphillInterceptor.caution());
      case SWALE -> SwaleCollector.cautions();
      case PINNED -> drawnForSeep ? List.of(UphillInterceptor.caution()) : List.of();
      default -> List.of();
    };
  }
}
