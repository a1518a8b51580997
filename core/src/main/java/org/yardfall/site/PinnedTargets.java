package org.yardfall.site;

import java.util.ArrayList;
import java.util.List;

/** Looks for what drawn drains are said to lead to or to serve, and the site does not have. */
public final class PinnedTargets {

  private PinnedTargets() {}

  /**
   * The given site, whose outlets are complete, if its drawn drains lead to what is there.
   *
   * @throws BadInputException naming each outlet, wet patch or line that is not there
   */
  public static Site checked(Site site) {
    List<Problem> problems = new ArrayList<>();
    for (PinnedLine line : site.pinned()) {
      String source = "pinned line " + line.id();
      if (site.outlets().stream().noneMatch(o -> o.id().equals(line.outletId()))
          && !line.outletId().isEmpty()) {
        problems.add(
            new Problem(
                source,
                "there is no outlet '" + line.outletId() + "'",
                "name one of the outlets, or none for the nearest"));
      }
      if (site.seeps().stream().noneMatch(s -> s.id().equals(line.seepId()))
          && !line.seepId().isEmpty()) {
        problems.add(
            new Problem(
                source,
                "there is no wet patch '" + line.seepId() + "'",
                "name one of the seeps, or none"));
      }
      if (site.pinned().stream()
              .noneMatch(l -> l.id().equals(line.id()) && l.part().equals(line.joins()))
          && !line.joins().isEmpty()) {
        problems.add(
            new Problem(
                source,
                "no line of it is part '" + line.joins() + "', which another is to join",
                "name one of its parts, or none for what the line ends on"));
      }
    }
    if (!problems.isEmpty()) {
      throw new BadInputException(problems);
    }
    return site;
  }
}
