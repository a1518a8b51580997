package org.yardfall.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.yardfall.layer.Result;
import org.yardfall.layer.ResultFixture;

class LinePointsTest {

  /** The drain's vertex at 30, 45 lies on a straight, of one grade and one pipe. */
  @Test
  void aDrainHasAPointWhereSomethingChangesAndNoOther() {
    Result result = ResultFixture.metric();
    List<LinePoints.Point> points = LinePoints.of(result, result.routes().get(0)).get(0);
    assertEquals(
        List.of(
            "upper end, 4 in perforated corrugated polyethylene from here",
            "bend 90°",
            "bored from here, 4 in solid Schedule 40 PVC from here",
            "outlet CB1"),
        points.stream().map(p -> p.what()).toList());
  }
}
