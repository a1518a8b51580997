package org.yardfall.elevation;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.locationtech.jts.geom.Envelope;
import org.tinfour.common.IConstraint;
import org.tinfour.common.LinearConstraint;
import org.tinfour.common.Vertex;
import org.tinfour.standard.IncrementalTin;
import org.tinfour.utils.HilbertSort;
import org.tinfour.utils.TriangleCollector;

/**
 * Delaunay triangulation by the library Tinfour, constrained by segments. Points enter in an order
 * of their places, so that the result does not depend on the order in which they are given.
 */
final class Triangulator {

  private Triangulator() {}

  /**
   * Triangulates points.
   *
   * @param x eastings in metres, no two points in one place
   * @param y northings in metres
   * @param z elevations in metres
   * @param segments pairs of points to keep joined; they meet only at points
   * @return the triangles; empty where all points lie on a line
   */
  static Optional<Tin> delaunay(double[] x, double[] y, double[] z, List<int[]> segments) {
    if (x.length < 3) {
      return Optional.empty();
    }
    Envelope extent = new Envelope();
    IntStream.range(0, x.length).forEach(i -> extent.expandToInclude(x[i], y[i]));
    double spacingM =
        Math.max(1e-3, Math.sqrt(Math.max(extent.getArea(), extent.getDiameter()) / x.length));
    Vertex[] vertices = new Vertex[x.length];
    for (int i = 0; i < x.length; i++) {
      // Tinfour keeps elevations as floats; ours are looked up by the vertex's number.
      vertices[i] = new Vertex(x[i] - extent.getMinX(), y[i] - extent.getMinY(), 0, i);
    }
    List<Vertex> ordered = new ArrayList<>(Arrays.asList(vertices));
    ordered.sort(Comparator.comparingDouble(Vertex::getX).thenComparingDouble(Vertex::getY));
    new HilbertSort().sort(ordered);
    IncrementalTin tin = new IncrementalTin(spacingM);
    tin.add(ordered, null);
    if (!tin.isBootstrapped()) {
      return Optional.empty();
    }
    if (!segments.isEmpty()) {
      List<IConstraint> constraints = new ArrayList<>();
      for (int[] segment : segments) {
        LinearConstraint line = new LinearConstraint(vertices[segment[0]], vertices[segment[1]]);
        line.complete();
        constraints.add(line);
      }
      tin.addConstraints(constraints, false);
    }
    return Optional.of(new Tin(x, y, z, corners(tin)));
  }

  private static int[] corners(IncrementalTin tin) {
    List<int[]> triangles = new ArrayList<>();
    TriangleCollector.visitTriangles(
        tin,
        corner ->
            triangles.add(
                new int[] {corner[0].getIndex(), corner[1].getIndex(), corner[2].getIndex()}));
    tin.dispose();
    return triangles.stream().flatMapToInt(Arrays::stream).toArray();
  }
}
