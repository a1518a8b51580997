package org.yardfall.sheet;

import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Location;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.layer.Result;
import org.yardfall.water.StandingWater;

/** How deep the water left standing is over the ground at a place, by classes. */
final class StandingDepths {

  private static final int DRY = -1;

  private final ElevationGrid ground;
  private final DepthClasses classes;
  private final List<Pond> ponds;

  private record Pond(Envelope extent, IndexedPointInAreaLocator area, double levelM) {}

  StandingDepths(Result result, StandingWater standing, DepthClasses classes) {
    this.ground = result.terrain().ground();
    this.classes = classes;
    this.ponds =
        standing.ponds().stream()
            .map(
                p ->
                    new Pond(
                        p.outline().getEnvelopeInternal(),
                        new IndexedPointInAreaLocator(p.outline()),
                        p.levelM()))
            .toList();
  }

  /** The colour as ARGB; 0 where the place is dry. */
  double colourAt(double x, double y) {
    int found = classAt(x, y);
    return found == DRY ? 0 : 0xFF000000L | classes.rgb(found);
  }

  /**
   * The areas of the classes on a drawing, from the shallowest to the deepest, cell by cell.
   *
   * @param mostCells greatest number of cells across the drawing; coarser cells are drawn of more
   */
  List<Path2D> areas(MapView view, int mostCells) {
    List<Path2D> areas = new ArrayList<>();
    for (int i = 0; i < classes.count(); i++) {
      areas.add(new Path2D.Double());
    }
    Envelope shown = view.ground();
    double cell =
        Math.max(ground.frame().cellM(), Math.max(shown.getWidth(), shown.getHeight()) / mostCells);
    Envelope whole = ground.frame().envelope();
    for (Pond pond : ponds) {
      Envelope part = pond.extent().intersection(shown);
      int south = (int) Math.floor((part.getMinY() - whole.getMinY()) / cell);
      int north = (int) Math.ceil((part.getMaxY() - whole.getMinY()) / cell);
      for (int row = south; !part.isNull() && row < north; row++) {
        row(areas, pond, part, whole.getMinX(), whole.getMinY() + row * cell, cell, view);
      }
    }
    return areas;
  }

  /** Adds the runs of equal class in a row of cells. */
  private void row(
      List<Path2D> areas,
      Pond pond,
      Envelope part,
      double west,
      double bottom,
      double cell,
      MapView view) {
    int from = (int) Math.floor((part.getMinX() - west) / cell);
    int to = (int) Math.ceil((part.getMaxX() - west) / cell);
    int start = from;
    int run = DRY;
    for (int col = from; col <= to; col++) {
      double x = west + (col + 0.5) * cell;
      int here = col == to ? DRY : classIn(pond, new Coordinate(x, bottom + cell / 2));
      if (here != run) {
        if (run != DRY) {
          areas
              .get(run)
              .append(
                  new Rectangle2D.Double(
                      view.x(west + start * cell),
                      view.y(bottom + cell),
                      (col - start) * cell * view.pointsPerM(),
                      cell * view.pointsPerM()),
                  false);
        }
        start = col;
        run = here;
      }
    }
  }

  private int classAt(double x, double y) {
    Coordinate place = new Coordinate(x, y);
    for (Pond pond : ponds) {
      int found = pond.extent().contains(place) ? classIn(pond, place) : DRY;
      if (found != DRY) {
        return found;
      }
    }
    return DRY;
  }

  private int classIn(Pond pond, Coordinate place) {
    int cell = ground.frame().index(place.x, place.y);
    if (cell < 0 || pond.area().locate(place) == Location.EXTERIOR) {
      return DRY;
    }
    return classes.of(Math.max(0, pond.levelM() - ground.z()[cell]));
  }
}
