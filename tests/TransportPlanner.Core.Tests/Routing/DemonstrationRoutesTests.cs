using QuikGraph;
using QuikGraph.Algorithms;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Routing;
using TransportPlanner.Core.Tests.FloorPlans.Demonstration;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Tests.Routing;

/// <summary>The ways of the invented hospital, from each delivery room to the isolation nursery.</summary>
public sealed class DemonstrationRoutesTests
{
    private static readonly FloorGraph Graph = FloorGraphBuilder.Build(DemonstrationHospital.Build());

    public static readonly TheoryData<string> DeliveryRooms =
        [.. Graph.Plan.Places.Where(place => place.Kind == PlaceKind.DeliveryRoom).Select(place => place.Number)];

    [Fact]
    public void At_night_the_staff_door_that_is_too_narrow_is_named_with_the_seconds_it_would_save()
    {
        var set = Found("D-2.14", At(1, 10));

        var staffDoor = Graph.Plan.Passages.Single(p => p.From == "H-4.05" && p.To == "HN-4.01");
        Assert.Contains(set.NotChosen, n => n.Way == staffDoor.Id && n.Sentence.Contains("is 3 cm too narrow (0.82 m clear, 0.85 m needed", StringComparison.Ordinal));
    }

    [Fact]
    public void By_day_the_way_past_the_visitors_is_told_with_the_people_it_would_meet()
    {
        var set = Found("D-2.14", At(14, 10));

        Assert.Contains(set.NotChosen, n => n.Way == "Public elevators" && n.Sentence.Contains("people likely met instead of", StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(DeliveryRooms))]
    public void The_quickest_way_takes_as_long_as_the_shortest_path_of_a_general_library(string from)
    {
        var query = Query(from, At(14, 10));
        var profile = TravelProfile.For(Graph, query.Travel);
        var quik = new AdjacencyGraph<int, TaggedEdge<int, double>>();
        quik.AddVertexRange(Enumerable.Range(0, Graph.VertexCount));
        foreach (var arc in Enumerable.Range(0, Graph.ArcCount).Where(arc => profile.ObstacleOf(arc) is null))
        {
            quik.AddEdge(new(Graph.ArcSource[arc], Graph.ArcTarget[arc], Math.Round(profile.TimeOf(arc).ExpectedSeconds * 10, MidpointRounding.AwayFromZero)));
        }

        var paths = quik.ShortestPathsDijkstra(edge => edge.Tag, Graph.DepartureVertex(Graph.PlaceIndex[from]));
        Assert.True(paths(Graph.ArrivalVertex(Graph.PlaceIndex["N-4.03"]), out IEnumerable<TaggedEdge<int, double>> path));

        Assert.Equal(path.Sum(edge => edge.Tag) / 10, Set(query).Routes[0].ExpectedSeconds, 6);
    }

    [Theory]
    [MemberData(nameof(DeliveryRooms))]
    public void Every_shown_way_is_efficient_carries_a_reason_and_adds_up(string from)
    {
        var set = Found(from, At(14, 10));

        Assert.InRange(set.Routes.Length, 1, 4);
        Assert.Equal(Enum.GetValues<RouteReason>(), set.Routes.SelectMany(route => route.Reasons).Order());
        Assert.All(set.Routes, route =>
        {
            Assert.Contains(set.Front, point => point.ExpectedSeconds == route.ExpectedSeconds && point.Handling == route.Handling);
            Assert.Equal(route.Metres, route.Legs.Sum(leg => leg.Metres), 6);
            Assert.Equal(route.ExpectedSeconds, route.Legs.Sum(leg => leg.ExpectedSeconds), 6);
            Assert.Equal(route.Exposure.SharedAirMinutes, route.Legs.Sum(leg => leg.Exposure.SharedAirMinutes), 9);
            Assert.Equal(route.Legs.OrderBy(leg => leg.Ends.UsuallySeconds).ThenBy(leg => leg.Ends.NearlyAlwaysSeconds), route.Legs);
            Assert.Equal((route.Time.UsuallySeconds, route.Time.NearlyAlwaysSeconds), (route.Legs[^1].Ends.UsuallySeconds, route.Legs[^1].Ends.NearlyAlwaysSeconds));
            Assert.Equal((from, "N-4.03"), (route.Legs[0].Places[0], route.Legs[^1].Places[^1]));
        });
    }

    [Fact]
    public void Closing_a_passage_on_any_shown_way_never_shortens_the_quickest()
    {
        var before = Found("D-2.14", At(14, 10));

        Assert.All(before.Routes.SelectMany(route => route.Doors).Select(door => door.Passage).Distinct(), passage =>
        {
            var closure = new Closure("c", ClosureTarget.Passage, passage, At(14, 0), At(16, 0), "works", "facilities");
            var query = Query("D-2.14", At(14, 10));
            if (RouteFinder.Find(Graph, query with { Travel = query.Travel with { Closures = [closure] } }) is RouteOutcome.Found after)
            {
                Assert.True(after.Set.Routes[0].ExpectedSeconds >= before.Routes[0].ExpectedSeconds);
                Assert.DoesNotContain(after.Set.Routes.SelectMany(route => route.Doors), door => door.Passage == passage);
            }
        });
    }

    [Fact]
    public void A_wider_conveyance_never_gains_a_quicker_way()
    {
        var slim = Set(Query("D-2.14", At(14, 10)));
        var query = Query("D-2.14", At(14, 10));
        var wide = new Conveyance(query.Travel.Conveyance.Length, Core.Units.Distance.FromMetres(0.95), query.Travel.Conveyance.Height, 140, 4);

        var outcome = RouteFinder.Find(Graph, query with { Travel = query.Travel with { Conveyance = wide } });

        Assert.True(outcome is not RouteOutcome.Found found || found.Set.Routes[0].ExpectedSeconds >= slim.Routes[0].ExpectedSeconds);
    }

    [Fact]
    public void A_wider_conveyance_never_gains_a_passage()
    {
        var query = Query("D-2.14", At(14, 10));
        PricedGraph Priced(double metres) => new(Graph, query with
        {
            Travel = query.Travel with
            {
                Conveyance = new(query.Travel.Conveyance.Length, Core.Units.Distance.FromMetres(metres), query.Travel.Conveyance.Height, 140, 4),
            },
        });
        double[] widths = [0.6, 0.75, 0.9, 1.0, 1.1, 1.3, 1.6];

        Assert.All(widths.Zip(widths.Skip(1)), pair =>
        {
            var (slim, wide) = (Priced(pair.First).Allowed, Priced(pair.Second).Allowed);
            Assert.DoesNotContain(Enumerable.Range(0, wide.Length), arc => wide[arc] && !slim[arc]);
        });
        Assert.NotEqual(Count(0.6), Count(1.6));

        int Count(double metres) => Priced(metres).Allowed.Cast<bool>().Count(allowed => allowed);
    }

    [Fact]
    public void A_conveyance_wider_than_every_door_finds_nothing_and_is_told_by_how_much()
    {
        var query = Query("D-2.14", At(14, 10));
        var huge = new Conveyance(query.Travel.Conveyance.Length, Core.Units.Distance.FromMetres(2.5), query.Travel.Conveyance.Height, 140, 4);

        var none = Assert.IsType<RouteOutcome.None>(RouteFinder.Find(Graph, query with { Travel = query.Travel with { Conveyance = huge } }));

        Assert.Equal(NoRouteReason.Blocked, none.Reason);
        Assert.True(none.Obstacle!.By > 1);
        Assert.Contains($"{none.Obstacle.Sentence}.", none.Sentence, StringComparison.Ordinal);
    }

    /// <summary>Local time of the site on Monday 4 May 2026, given in UTC of its own time zone.</summary>
    private static DateTimeOffset At(int hour, int minute)
    {
        var local = new DateTime(2026, 5, 4, hour, minute, 0, DateTimeKind.Unspecified);
        return new DateTimeOffset(local, TimeZoneInfo.FindSystemTimeZoneById(Graph.Plan.TimeZone).GetUtcOffset(local));
    }

    private static RouteQuery Query(string from, DateTimeOffset departure) => new()
    {
        From = from,
        To = "N-4.03",
        Precautions = PrecautionSet.Airborne,
        Travel = new() { Conveyance = Conveyance.AssumedIncubator, Departure = departure, HeldElevators = true, WithHelper = true },
    };

    private static RouteSet Found(string from, DateTimeOffset departure) => Set(Query(from, departure));

    private static RouteSet Set(RouteQuery query) => Assert.IsType<RouteOutcome.Found>(RouteFinder.Find(Graph, query)).Set;
}
