package org.yardfall.route;

import java.util.List;
import java.util.function.ToDoubleFunction;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;

/** A route for tests, laid as they say; its figures are those of its stations. */
public final class MadeUpRoute {

  private DrainKind kind = DrainKind.PERIMETER;
  private int rank = 1;
  private final String outletId;
  private final DrainLine main;
  private final List<Route.Branch> branches;
  private double searchPrice;
  private List<String> crosses = List.of();
  private List<Bore> bores = List.of();
  private List<String> reasons = List.of();
  private List<String> cautions = List.of();
  private Audit audit = new Audit(List.of());

  private MadeUpRoute(String outletId, DrainLine main, List<Route.Branch> branches) {
    this.outletId = outletId;
    this.main = main;
    this.branches = branches;
  }

  /** A perimeter drain, the first of its plan. */
  public static MadeUpRoute to(String outletId, DrainLine main, List<Route.Branch> branches) {
    return new MadeUpRoute(outletId, main, branches);
  }

  public MadeUpRoute ranked(int rank, DrainKind kind) {
    this.rank = rank;
    this.kind = kind;
    return this;
  }

  public MadeUpRoute searchPrice(double price) {
    this.searchPrice = price;
    return this;
  }

  public MadeUpRoute bored(List<String> crosses, List<Bore> bores) {
    this.crosses = crosses;
    this.bores = bores;
    return this;
  }

  public MadeUpRoute said(List<String> reasons, List<String> cautions) {
    this.reasons = reasons;
    this.cautions = cautions;
    return this;
  }

  public MadeUpRoute audit(Audit audit) {
    this.audit = audit;
    return this;
  }

  public Route make() {
    List<Station> stations = main.stations();
    return new Route(
        "R" + rank,
        kind,
        rank,
        outletId,
        main,
        branches,
        stations.get(0).invertM() - stations.get(stations.size() - 1).invertM(),
        figures(Station::grade).min().orElseThrow(),
        figures(Station::grade).max().orElseThrow(),
        figures(Station::coverM).min().orElseThrow(),
        figures(Station::depthM).max().orElseThrow(),
        0,
        searchPrice,
        crosses,
        bores,
        reasons,
        cautions,
        audit);
  }

  private DoubleStream figures(ToDoubleFunction<Station> figure) {
    return Stream.concat(Stream.of(main), branches.stream().map(Route.Branch::line))
        .flatMap(line -> line.stations().stream())
        .mapToDouble(figure);
  }
}
