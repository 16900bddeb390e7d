using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Tests.FloorPlans.Demonstration;

/// <summary>What the examples and the screens may rely on.</summary>
public sealed class DemonstrationHospitalTests
{
    private static readonly FloorPlan Plan = DemonstrationHospital.Build();

    [Fact]
    public void It_is_as_large_as_a_hospital()
    {
        Assert.True(Plan.Levels.Length >= 5);
        Assert.True(Plan.Places.Length >= 260, $"{Plan.Places.Length} places");
        Assert.True(Plan.Passages.Length >= 320, $"{Plan.Passages.Length} passages");
        Assert.Equal(6, Plan.Elevators.Length);
        Assert.Equal(3, Plan.ElevatorGroups.Length);
    }

    [Fact]
    public void It_says_in_its_name_and_its_notice_that_it_is_invented()
    {
        Assert.Equal("demonstration", Plan.SiteId);
        Assert.Contains("invented", Plan.Name, StringComparison.Ordinal);
        Assert.Contains("invented", Plan.Notice, StringComparison.Ordinal);
    }

    [Fact]
    public void It_has_the_rooms_that_the_examples_name()
    {
        Assert.Equal(8, Plan.Places.Count(p => p is { Kind: PlaceKind.DeliveryRoom, Level: "2" }));
        Assert.Equal("Delivery room 4", Place("D-2.14").Name);
        Assert.Equal("Isolation nursery room 3", Place("N-4.03").Name);
        Assert.Equal(2, Plan.Places.Count(p => p.Kind == PlaceKind.OperatingRoom));
        var intensiveCare = Plan.Places.Where(p => p.Kind == PlaceKind.NeonatalIntensiveCare).ToList();
        Assert.NotEmpty(intensiveCare);
        Assert.All(intensiveCare, p => Assert.True(p.Flags.HasFlag(PlaceFlags.VulnerablePeople)));
        Assert.All(
            intensiveCare.Concat(Plan.Places.Where(p => p.Kind == PlaceKind.OperatingRoom)),
            p => Assert.Equal(PressureRelation.Positive, p.Pressure.Value));
        Assert.Contains(Plan.Places, p => p.Kind == PlaceKind.Imaging && p.Flags.HasFlag(PlaceFlags.NoCylinders));
        Assert.Contains(Plan.Places, p => p.Kind == PlaceKind.LinkBridge && p.Flags.HasFlag(PlaceFlags.Cold));
        Assert.Contains(Plan.Places, p => p.Kind == PlaceKind.Ramp && p.GradientPercent.Value > 5);
        Assert.Contains(Plan.Places, p => p.Flags.HasFlag(PlaceFlags.NoEntry));
        Assert.Contains(Plan.Places, p => p.Kind == PlaceKind.ElevatorLanding && !p.AirChanges.IsKnown);
        foreach (var wanted in (CorridorClass[])[CorridorClass.Clean, CorridorClass.Soiled, CorridorClass.Public, CorridorClass.Restricted])
        {
            Assert.Contains(Plan.Places, p => p.CorridorClass == wanted);
        }
    }

    [Theory]
    [InlineData("N-4.01")]
    [InlineData("N-4.02")]
    [InlineData("N-4.03")]
    [InlineData("N-4.04")]
    public void An_isolation_room_is_negative_and_entered_through_its_own_anteroom(string room)
    {
        Assert.Equal(PressureRelation.Negative, Place(room).Pressure.Value);
        Assert.Equal(
            [room + "A", room + "S"],
            Plan.Passages.Where(p => p.From == room || p.To == room).Select(p => p.From == room ? p.To : p.From).Order());
        Assert.Equal(PlaceKind.Anteroom, Place(room + "A").Kind);
    }

    [Fact]
    public void Door_widths_differ_and_some_are_too_narrow_or_unknown()
    {
        var doors = Plan.Passages.Where(p => p.IsDoor).ToList();
        // 0.75 m incubator and 50 mm on each side, the project's own clearance.
        Assert.InRange(doors.Count(d => d.ClearWidth is { IsKnown: true, Value.Millimetres: < 850 }), 20, 90);
        Assert.InRange(doors.Count(d => !d.ClearWidth.IsKnown), 5, 30);
        Assert.All(doors.Where(d => d.Kind == PassageKind.LandingDoor), d => Assert.True(d.ClearWidth.IsKnown));
        Assert.True(doors.Select(d => d.ClearWidth.OrNull).Distinct().Count() > 15);
        Assert.True(doors.Count(d => d.ClearWidth is { IsKnown: true, Source: FactSource.Measured }) > doors.Count / 2);
        Assert.Contains(doors, d => d.ClearWidth is { IsKnown: true, Source: FactSource.Assumed });
        Assert.Contains(doors, d => d.ClearWidth is { IsKnown: true, Source: FactSource.Drawing });
        Assert.Contains(doors, d => d.Threshold.Value.Millimetres > 10);
        Assert.Contains(doors, d => d.Direction == PassageDirection.Forward && Place(d.To).CorridorClass == CorridorClass.Soiled);
        Assert.Equal(4, doors.Where(d => d.Access != AccessControl.None).Select(d => d.Access).Append(AccessControl.None).Distinct().Count());
    }

    [Fact]
    public void Every_fact_with_a_date_was_known_within_three_years()
    {
        DateOnly[] days =
        [
            .. Plan.Places.SelectMany(p => new[] { p.Height.AsOf, p.AirChanges.AsOf, p.Pressure.AsOf }).OfType<DateOnly>(),
            .. Plan.Places.SelectMany(p => p.Facilities).Select(f => f.AsOf).OfType<DateOnly>(),
            .. Plan.Passages.SelectMany(p => new[] { p.ClearWidth.AsOf, p.Threshold.AsOf, p.OpeningAlone.AsOf }).OfType<DateOnly>(),
        ];

        Assert.All(days, day => Assert.InRange(day, new(2024, 1, 1), new(2026, 12, 31)));
    }

    /// <summary>Crew at 0.325 m² (movement.csv MV-40, MIL-HDBK-1191 17.5.3.1) and 80 kg (the project's own), 50 mm clearance on each side.</summary>
    [Fact]
    public void One_car_is_too_small_for_the_incubator_with_a_crew_of_four_and_one_is_comfortable()
    {
        const double Length = 1.5, Width = .75, Clearance = .05, Kilograms = 140 + 4 * 80;
        const double Area = Length * Width + 4 * .325;

        bool Fits(Elevator e, double spare) =>
            e.CarLength.Value.Metres >= Length + 2 * Clearance + spare && e.CarWidth.Value.Metres >= Width + 2 * Clearance + spare
            && e.CarLength.Value.Metres * e.CarWidth.Value.Metres >= Area + spare && e.RatedLoadKilograms.Value >= Kilograms
            && e.DoorWidth.Value.Metres >= Width + 2 * Clearance;

        Assert.Equal(["P3"], Plan.Elevators.Where(e => !Fits(e, 0)).Select(e => e.Id));
        Assert.Contains("C1", Plan.Elevators.Where(e => Fits(e, .5)).Select(e => e.Id));
        Assert.True(Plan.Elevators.Select(e => (e.CarLength.Value, e.CarWidth.Value)).Distinct().Count() >= 5);
    }

    /// <summary>
    /// Doors shut 15.4–23.0, held open 69–138 air changes per hour: door-and-wake-values.csv DW-16, DW-17 (van Rijn et al., Indoor Air
    /// 2020;30:1065).
    /// </summary>
    [Fact]
    public void Car_air_lies_where_it_was_measured()
    {
        Assert.All(Plan.Elevators, e => Assert.InRange(Place(e.Car).AirChanges.Value.PerHour, 15.4, 23.0));
        Assert.All(Plan.Elevators, e => Assert.InRange(e.AirChangesDoorsOpen.Value.PerHour, 69, 138));
        Assert.Contains(Plan.ElevatorGroups, g => Plan.Elevators.Where(e => e.Group == g.Id).All(e => !e.CanBeHeld));
        Assert.Contains(Plan.Elevators, e => e is { CanBeHeld: true, PriorityControl: AccessControl.Key });
    }

    [Fact]
    public void The_week_has_shift_changes_visiting_and_a_quiet_weekend_in_the_lobby()
    {
        var lobby = Place("H-1.11").Occupancy!;
        var spine = Place("H-2.02").Occupancy!;

        Assert.True(lobby.At(DayOfWeek.Monday, new(10, 0)) > 2 * lobby.At(DayOfWeek.Sunday, new(10, 0)));
        Assert.True(lobby.At(DayOfWeek.Monday, new(10, 0)) > 20 * lobby.At(DayOfWeek.Monday, new(3, 0)));
        Assert.True(spine.At(DayOfWeek.Monday, new(7, 0)) > 1.2 * spine.At(DayOfWeek.Monday, new(8, 15)));
        Assert.True(spine.At(DayOfWeek.Monday, new(15, 0)) > spine.At(DayOfWeek.Monday, new(13, 0)));
        Assert.Equal(0, Place("Q-1.03").Occupancy!.At(DayOfWeek.Sunday, new(3, 0)));
    }

    [Fact]
    public void Outlets_bail_outs_and_hand_hygiene_stand_along_the_ways()
    {
        Assert.True(Place("D-2.14").Has(FacilityKind.OxygenOutlet));
        Assert.True(Place("N-4.03").Has(FacilityKind.OxygenOutlet));
        Assert.True(Plan.Places.Count(p => p.Has(FacilityKind.BailOut)) > 20);
        Assert.True(Place("N-4.03A").Has(FacilityKind.Donning));
        Assert.True(Place("N-4.03A").Has(FacilityKind.Doffing));
        var outlets = Plan.Places.SelectMany(p => p.Facilities).Where(f => f.Kind == FacilityKind.OxygenOutlet);
        Assert.Equal(2, outlets.Select(f => f.Connector).Distinct().Count());
    }

    private static Place Place(string number) => Plan.Places.Single(p => p.Number == number);
}
