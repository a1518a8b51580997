package org.yardfall;

import java.util.List;
import java.util.Optional;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.yardfall.elevation.ElevationSource;
import org.yardfall.elevation.Terrain;
import org.yardfall.site.BadInputException;
import org.yardfall.site.Building;
import org.yardfall.site.Outlet;
import org.yardfall.site.Parcel;
import org.yardfall.site.PinnedLine;
import org.yardfall.site.Site;
import org.yardfall.water.CutOff;
import org.yardfall.water.Side;
import org.yardfall.water.SurfaceWater;
import org.yardfall.water.SurfaceWaterFinder;

/**
 * Reads just as much ground as the lot's water needs: the lot and its outlets with a margin, grown
 * on every side on which the lot's catchment touches the window's edge, until it lies inside or the
 * elevation ends.
 */
final class CatchmentWindow {

  private static final double MARGIN_M = 30;
  private static final double GROWTH = 0.75;

  private final Site site;
  private final ElevationSource source;
  private Terrain terrain;
  private SurfaceWater water;

  private CatchmentWindow(Site site, ElevationSource source) {
    this.site = site;
    this.source = source;
  }

  /** The ground and its water, read and found for the site. */
  static CatchmentWindow read(Site site, ElevationSource source) {
    CatchmentWindow window = new CatchmentWindow(site, source);
    if (site.lot().isEmpty()) {
      window.take(source.extentM());
    } else {
      window.grow(site.lot().get());
    }
    return window;
  }

  Terrain terrain() {
    return terrain;
  }

  SurfaceWater water() {
    return water;
  }

  /** Where the elevation ends before the lot's catchment does, in words. */
  Optional<String> cutOff() {
    return site.lot()
        .map(Parcel::outline)
        .flatMap(
            lot ->
                CutOff.warning(
                    water.lotCatchment().orElseThrow(), lot, terrain.ground().frame().envelope()));
  }

  private void grow(Parcel lot) {
    Envelope extent = source.extentM();
    checkCovered(lot, extent);
    Envelope window = new Envelope(lot.outline().getEnvelopeInternal());
    for (Outlet outlet : site.outlets()) {
      Coordinate at = outlet.at();
      if (extent.contains(at)) {
        window.expandToInclude(at);
      }
    }
    for (PinnedLine pinned : site.pinned()) {
      window.expandToInclude(pinned.line().getEnvelopeInternal().intersection(extent));
    }
    for (Building building : site.buildings()) {
      if (building.outline().intersects(lot.outline())) {
        window.expandToInclude(building.outline().getEnvelopeInternal());
      }
    }
    window.expandBy(MARGIN_M);
    window = window.intersection(extent);
    take(window);
    List<Side> open = openSides(window, extent);
    while (!open.isEmpty()) {
      window = grown(window, open).intersection(extent);
      take(window);
      open = openSides(window, extent);
    }
  }

  private void checkCovered(Parcel lot, Envelope extent) {
    Envelope needed = lot.outline().getEnvelopeInternal();
    if (!extent.intersects(needed)) {
      throw new BadInputException(
          "elevation",
          "lot " + lot.id() + " lies outside the elevation",
          "give a raster that covers the lot, or check the CRS of both files");
    }
    if (!extent.contains(needed)) {
      throw new BadInputException(
          "elevation",
          "lot " + lot.id() + " crosses the edge of the elevation",
          "give rasters that cover the whole lot and the ground that drains to it");
    }
  }

  private void take(Envelope window) {
    terrain = source.read(window);
    water = SurfaceWaterFinder.find(terrain, site);
  }

  /** Sides on which the catchment touches the window's edge although the elevation goes on. */
  private List<Side> openSides(Envelope window, Envelope extent) {
    double cell = source.cellM();
    return water.lotCatchmentCutOff().stream()
        .filter(
            side ->
                switch (side) {
                  case NORTH -> extent.getMaxY() - window.getMaxY() > cell;
                  case SOUTH -> window.getMinY() - extent.getMinY() > cell;
                  case EAST -> extent.getMaxX() - window.getMaxX() > cell;
                  case WEST -> window.getMinX() - extent.getMinX() > cell;
                })
        .toList();
  }

  private static Envelope grown(Envelope window, List<Side> sides) {
    double dx = window.getWidth() * GROWTH;
    double dy = window.getHeight() * GROWTH;
    return new Envelope(
        window.getMinX() - (sides.contains(Side.WEST) ? dx : 0),
        window.getMaxX() + (sides.contains(Side.EAST) ? dx : 0),
        window.getMinY() - (sides.contains(Side.SOUTH) ? dy : 0),
        window.getMaxY() + (sides.contains(Side.NORTH) ? dy : 0));
  }
}
