using TransportPlanner.Core.Exposure;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Posts;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Routing;
using TransportPlanner.Core.Tests.FloorPlans;
using TransportPlanner.Core.Tests.FloorPlans.Demonstration;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Tests.Posts;

public sealed class RoutePostsTests
{
    private static readonly DateTimeOffset Noon = new(2026, 5, 4, 12, 0, 0, TimeSpan.Zero);
    private static readonly FloorGraph Demonstration = FloorGraphBuilder.Build(DemonstrationHospital.Build());

    // Seen to fail: with the usual instead of the earliest arrival.
    [Fact]
    public void A_side_door_is_watched_from_the_lead_before_the_earliest_arrival_until_the_team_has_nearly_always_left()
    {
        var (posts, route) = Posts(Corridor());

        var post = Assert.Single(posts.Posts);
        var before = JourneyTime.Of(route.Times.Take(1));
        var after = JourneyTime.Of(route.Times.Take(2));
        Assert.Equal(("Hall/Ward", "Hall", PostKind.Door), (post.Passage, post.Place, post.Kind));
        // Lead 30 s and 30 s more for clearing; no hold afterwards.
        Assert.Equal(Noon.AddSeconds(Math.Floor(before.MinimumSeconds) - 60), post.Window.From);
        Assert.Equal(Noon.AddSeconds(after.NearlyAlwaysSeconds), post.Window.To);
        Assert.Equal(post.Window, Assert.Single(posts.Places).Held);
        // Closed for airing: 30 min by default, without an officer.
        Assert.Equal(post.Window.To.AddMinutes(30), posts.Places[0].ClosedUntil);
    }

    [Fact]
    public void People_likely_met_are_people_behind_over_their_stay_over_ways_out_times_the_window()
    {
        var post = Assert.Single(Posts(Corridor(), people: 6).Posts.Posts);

        // Little's law: 6 people who stay 30 min in a room with one door: 0.2 a minute.
        Assert.Equal(0.2, Assert.Single(post.Doors).PeoplePerMinute, 12);
        Assert.Equal(0.2 * post.Window.Minutes, post.PeopleLikelyMet, 12);
    }

    [Fact]
    public void A_door_behind_which_nobody_is_needs_no_post_and_one_behind_which_nobody_knows_does()
    {
        var empty = Posts(Corridor(), people: 0.05).Posts;
        var unknown = Posts(Corridor().With("Ward", place => place with { Occupancy = null })).Posts;

        Assert.Empty(empty.Posts);
        Assert.Equal(new QuietDoor("Hall/Ward", "Hall", "Ward", 0.05), Assert.Single(empty.QuietDoors));
        Assert.True(Assert.Single(Assert.Single(unknown.Posts).Doors).IsAssumed);
    }

    [Fact]
    public void A_room_that_is_empty_but_leads_to_people_is_watched()
    {
        var sketch = Corridor().Room("Day", 10, 8, 20, 12).Door("Ward", "Day").With("Ward", place => place with { Occupancy = QuarterHourProfile.Constant(0) });

        Assert.Single(Posts(sketch).Posts.Posts);
    }

    [Fact]
    public void A_one_way_door_is_watched_only_where_it_lets_people_in()
    {
        PassageDirection oneWay = PassageDirection.Forward;

        Assert.Empty(Posts(Corridor().WithPassage("Hall/Ward", p => p with { Direction = oneWay })).Posts.Posts);
        Assert.Single(Posts(Corridor().WithPassage("Hall/Ward", p => p with { Direction = oneWay, From = "Ward", To = "Hall" })).Posts.Posts);
    }

    [Fact]
    public void Doors_in_a_straight_line_within_sight_share_an_officer_and_farther_ones_do_not()
    {
        Sketch Doors(double metres) => Corridor().Room("Bay", 15 + metres - 2, 4, 15 + metres + 2, 8).Door("Hall", "Bay");

        Assert.Equal(["Hall/Ward", "Hall/Bay"], Assert.Single(Posts(Doors(14)).Posts.Posts).Doors.Select(door => door.Passage));
        Assert.Equal(2, Posts(Doors(17)).Posts.Posts.Length);
        Assert.Equal(2, Posts(Doors(14), settings: new() { SightMetres = 0 }).Posts.Posts.Length);
    }

    [Fact]
    public void With_hold_minutes_the_doors_of_the_way_are_watched_after_the_team()
    {
        var (posts, _) = Posts(Corridor(), exposure: new() { HoldMinutes = 10 });

        var leaves = Noon.AddSeconds(posts.Places[0].TeamLeaves.NearlyAlwaysSeconds);
        Assert.Equal(leaves.AddMinutes(10), posts.Places[0].Held.To);
        Assert.Equal(["Delivery/Hall", "Hall/Nursery", "Hall/Ward"], posts.Posts.SelectMany(post => post.Doors).Select(door => door.Passage).Order());
        Assert.All(posts.Posts, post => Assert.Equal(leaves.AddMinutes(10), post.Window.To));
        Assert.Contains(posts.Posts, post => post.Window.From == leaves);
    }

    [Fact]
    public void A_door_between_two_held_places_is_watched_only_while_one_of_them_is_not_held()
    {
        // Two doors join the halls; the team takes one of them.
        var sketch = Sketch.Parse("1 at 0: Delivery 5 | Hall1 30 | Hall2 30 | Nursery 6")
            .Door("Hall1", "Hall2", at: new PlanSegment(new(35, 0), new(35, 1)), id: "other");
        var (posts, _) = Posts(sketch, settings: new() { SightMetres = 0 });

        var windows = posts.Posts.Where(post => post.Passage == "other" || post.Passage == "Hall1/Hall2").OrderBy(post => post.Window.From).Select(post => post.Window).ToList();
        Assert.Equal([new(posts.Places[0].Held.From, posts.Places[1].Held.From), new(posts.Places[0].Held.To, posts.Places[1].Held.To)], windows);
    }

    [Theory]
    [InlineData(PrecautionSet.Droplet)]
    [InlineData(PrecautionSet.Contact)]
    public void What_the_site_does_not_hold_needs_no_post_but_the_elevator_is_still_captured(PrecautionSet precautions)
    {
        var (posts, route) = Posts(TwoStoreys(), precautions: precautions);

        Assert.Empty(posts.Places);
        var post = Assert.Single(posts.Posts);
        var capture = Assert.Single(posts.Elevators);
        Assert.Equal((PostKind.Elevator, "E@1", "Landing1"), (post.Kind, post.Passage, post.Place));
        Assert.Equal(capture.Captured, post.Window);
        // Captured a minute before the team can be on the landing (two crossings), given back when it has left the car (four) and it is cleaned: 10 min.
        Assert.Equal(Noon.AddSeconds(Math.Floor(JourneyTime.Of(route.Times.Take(2)).MinimumSeconds) - 60), capture.Captured.From);
        // The doors shut behind the team: into the car at most 12 s (MIL-HDBK-1191, MV-22), the sketch's doors close in 4 s.
        Assert.Equal(Noon.AddSeconds(Math.Ceiling(JourneyTime.Of(route.Times.Take(3)).NearlyAlwaysSeconds + 12 + 4.0)), capture.Captured.To);
        Assert.Equal(Noon.AddSeconds(JourneyTime.Of(route.Times.Take(4)).NearlyAlwaysSeconds).AddMinutes(10), capture.GivenBack);
        Assert.Equal("Landing2", capture.ReturnLanding);
    }

    // A mean wait of 80 s: nine in ten below 80 × (2.5 − √0.5) = 143.4 s (triangle 0, 40, 200). Seen to fail: with the site's 60 s alone.
    [Fact]
    public void A_car_is_called_as_long_before_as_nine_in_ten_waits_for_it_take()
    {
        var plan = TwoStoreys().Plan;
        var graph = FloorGraphBuilder.Build(plan with { ElevatorGroups = [plan.ElevatorGroups[0] with { MeanCallWaitSeconds = QuarterHourProfile.Constant(80) }] });
        var query = Query("Delivery", "Nursery", Noon, PrecautionSet.Contact);
        var route = Set(graph, query).Routes[0];

        var capture = Assert.Single(RoutePosts.For(graph, query, route, new()).Elevators);

        Assert.Equal(Noon.AddSeconds(Math.Floor(Math.Floor(JourneyTime.Of(route.Times.Take(2)).MinimumSeconds) - 80 * (2.5 - Math.Sqrt(0.5)))), capture.Captured.From);
    }

    // Nobody keeps the car: whoever is in it comes out onto the landing. Seen to fail: with every passage of the way left to the helper.
    [Fact]
    public void The_landing_doors_of_a_car_that_nobody_keeps_are_watched_as_long_as_the_landing_is_held()
    {
        var (posts, _) = Posts(TwoStoreys(), held: false);

        Assert.Equal(["E@1", "E@2"], posts.Posts.Select(post => post.Passage).Order());
        Assert.All(posts.Posts, post => Assert.Equal(posts.Places.Single(place => place.Place == post.Place).Held, post.Window));
    }

    // Seen to fail: with every passage of the way left to the helper.
    [Fact]
    public void A_door_of_the_way_to_a_place_that_nobody_holds_is_watched_like_any_other()
    {
        var sketch = Sketch.Parse("1 at 0: Delivery 5 | Hall1 30 | Soiled 30 | Hall2 30 | Nursery 6");
        var (posts, _) = Posts(sketch, exposure: new() { HeldClasses = new ExposureSettings().HeldClasses.SetItem(CorridorClass.Soiled, PrecautionSet.None) });

        Assert.Equal(["Hall1", "Hall2"], posts.Places.Select(place => place.Place));
        Assert.Equal([("Hall1/Soiled", "Hall1"), ("Soiled/Hall2", "Hall2")], posts.Posts.Select(post => (post.Passage, post.Place)));
        Assert.All(posts.Posts.Zip(posts.Places), pair => Assert.Equal(pair.Second.Held, pair.First.Window));
    }

    [Fact]
    public void A_landing_is_held_until_the_doors_of_the_car_are_shut_behind_the_team()
    {
        var (posts, route) = Posts(TwoStoreys());

        Assert.Equal(Noon.AddSeconds(JourneyTime.Of(route.Times.Take(3)).NearlyAlwaysSeconds + 12 + 4), posts.Places.Single(place => place.Place == "Landing1").Held.To);
    }

    [Fact]
    public void A_car_that_nobody_holds_is_not_captured() =>
        Assert.Empty(Posts(TwoStoreys(), held: false, precautions: PrecautionSet.Contact).Posts.Posts);

    [Fact]
    public void Doors_on_the_way_are_opened_by_the_clean_helper_or_by_the_crew()
    {
        var doors = Posts(Corridor()).Posts.DoorsToOpen;

        Assert.Equal(["Delivery/Hall", "Hall/Nursery"], doors.Select(door => door.Passage));
        Assert.All(doors, door => Assert.Equal(DoorOpener.CleanHelper, door.By));
        Assert.All(Posts(Corridor(), helper: false).Posts.DoorsToOpen, door => Assert.Equal(DoorOpener.Crew, door.By));
    }

    /// <summary>Said again, plainly, for every way of the invented hospital: whoever could walk onto a held place meets an officer, or nobody is behind the door.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(14)]
    public void Every_passage_onto_a_held_place_is_watched_while_it_is_held_or_quiet_or_leads_to_another_held_place(int hour)
    {
        var query = Query("D-2.14", "N-4.03", new(2026, 5, 4, hour, 10, 0, TimeSpan.Zero), PrecautionSet.Airborne);

        Assert.All(Set(Demonstration, query).Routes, route =>
        {
            var posts = RoutePosts.For(Demonstration, query, route, new());
            var held = posts.Places.ToDictionary(place => place.Place, place => place.Held);
            var quiet = posts.QuietDoors.Select(door => door.Passage).ToHashSet();
            var ways = route.Arcs.Where(arc => Demonstration.IsTraversal(Demonstration.ArcTarget[arc]))
                .Select(arc => Demonstration.Plan.Passages[FloorGraph.PassageOf(Demonstration.ArcTarget[arc])].Id).ToHashSet();
            var kept = Demonstration.Plan.Elevators.Where(car => posts.Elevators.Any(capture => capture.Elevator == car.Id)).Select(car => car.Car).ToHashSet();
            Assert.NotEmpty(posts.Posts);
            foreach (var passage in Demonstration.Plan.Passages)
            {
                foreach (var (place, behind) in new[] { (passage.To, passage.From), (passage.From, passage.To) })
                {
                    var comesIn = passage.Direction == PassageDirection.BothWays || place == passage.To;
                    if (!comesIn || !held.TryGetValue(place, out var window) || quiet.Contains(passage.Id)
                        || (ways.Contains(passage.Id) && (held.ContainsKey(behind) || behind == query.From || behind == query.To || kept.Contains(behind))))
                    {
                        continue;
                    }

                    // Second by second, but for those in which the place behind is held too.
                    var watching = posts.Posts.Where(post => post.Doors.Any(door => door.Passage == passage.Id) || post.Passage == passage.Id).ToList();
                    for (var at = window.From; at < window.To; at = at.AddSeconds(1))
                    {
                        var isInside = held.TryGetValue(behind, out var other) && other.From <= at && at < other.To;
                        Assert.True(isInside || watching.Exists(post => post.Window.From <= at && at < post.Window.To), $"{route.Id}: {passage.Id} onto {place} at {at:HH:mm:ss}");
                    }
                }
            }

            // Nobody stands where the incubator passes, but who watches that door.
            Assert.All(posts.Posts, post => Assert.True(
                post.Kind == PostKind.Elevator || !ways.Contains(post.Passage) || post.Doors.Any(door => door.Passage == post.Passage), $"{route.Id}: {post.Passage}"));
            Assert.All(posts.Posts, post => Assert.True(post.Window.From < post.Window.To));
        });
    }

    [Fact]
    public void What_is_said_names_the_place_and_nothing_about_the_infant()
    {
        var query = Query("D-2.14", "N-4.03", Noon, PrecautionSet.Airborne);
        var said = Set(Demonstration, query).Routes.SelectMany(route => RoutePosts.For(Demonstration, query, route, new()).Posts).ToList();

        Assert.All(said, post => Assert.True(post.Kind == PostKind.Elevator || post.Say.Contains(post.Place, StringComparison.Ordinal)));
        Assert.All(said, post => Assert.DoesNotMatch("(?i)infant|baby|newborn|mother|airborne|isolation|infect|ventilat|oxygen", post.Say.Replace(
            Demonstration.Plan.Places[Demonstration.PlaceIndex[post.Place]].Name, "", StringComparison.Ordinal)));
        Assert.All(said, post => Assert.EndsWith(".", post.Say, StringComparison.Ordinal));
        Assert.All(said, post => Assert.DoesNotContain(". ", post.Say, StringComparison.Ordinal));
    }

    private static Sketch Corridor() =>
        Sketch.Parse("1 at 0: Delivery 5 | Hall 40 | Nursery 6").Room("Ward", 13, 4, 17, 8).Door("Hall", "Ward");

    private static Sketch TwoStoreys() => Sketch.Parse("""
        1 at 0: Delivery 5 | Hall 30 | Landing1 4
        2 at 4: Landing2 4 | Nursery 6
        elevator E: Landing1 Landing2
        """);

    private static (RoutePosts Posts, Route Route) Posts(
        Sketch sketch, PostSettings? settings = null, ExposureSettings? exposure = null, PrecautionSet precautions = PrecautionSet.Airborne,
        bool held = true, bool helper = true, double? people = null)
    {
        var graph = (people is { } mean ? sketch.With("Ward", place => place with { Occupancy = QuarterHourProfile.Constant(mean) }) : sketch).Graph;
        var query = Query("Delivery", "Nursery", Noon, precautions);
        query = query with { Exposure = exposure ?? new(), Travel = query.Travel with { HeldElevators = held, WithHelper = helper } };
        var route = Set(graph, query).Routes[0];
        return (RoutePosts.For(graph, query, route, settings ?? new()), route);
    }

    private static RouteQuery Query(string from, string to, DateTimeOffset departure, PrecautionSet precautions) => new()
    {
        From = from,
        To = to,
        Precautions = precautions,
        Travel = new() { Conveyance = Conveyance.AssumedIncubator, Departure = departure, HeldElevators = true, WithHelper = true },
    };

    private static RouteSet Set(FloorGraph graph, RouteQuery query) => Assert.IsType<RouteOutcome.Found>(RouteFinder.Find(graph, query)).Set;
}
