using CsCheck;
using TransportPlanner.Core.Kits;

namespace TransportPlanner.Core.Tests.Kits;

/// <summary>
/// Two looks by two people: NHS Improvement 2018 and NHS England 2023 for the cylinder (PR-021), NCMEC 2014 for identity bands (PR-041).
/// That a role stands for a person and that one person may skip are project proposals.
/// </summary>
public sealed class TickTests
{
    private static readonly DateTimeOffset Now = new(2026, 5, 4, 2, 10, 0, TimeSpan.Zero);

    private static TickEntry By(TransportRole role, int minute = 0) => new(role, Now.AddMinutes(minute));

    private static Tick Taken(TickOutcome outcome) => Assert.IsType<TickOutcome.Taken>(outcome).Tick;

    private static TickRefusal Refused(TickOutcome outcome) => Assert.IsType<TickOutcome.Refused>(outcome).Why;

    [Fact]
    public void One_confirmation_makes_an_ordinary_item_done()
    {
        var tick = Taken(Tick.Untouched.Confirm(By(TransportRole.TransportNurse), twoPeople: false));

        Assert.Equal(TickState.Done, tick.State);
        Assert.Equal([By(TransportRole.TransportNurse)], tick.Entries);
    }

    [Fact]
    public void An_item_for_two_people_stays_open_until_a_second_role_has_looked()
    {
        var first = Taken(Tick.Untouched.Confirm(By(TransportRole.RespiratoryTherapist), twoPeople: true));
        var second = Taken(first.Confirm(By(TransportRole.TransportNurse, 3), twoPeople: true));

        Assert.Equal(TickState.Open, first.State);
        Assert.Equal(TickState.Done, second.State);
        Assert.Equal([By(TransportRole.RespiratoryTherapist), By(TransportRole.TransportNurse, 3)], second.Entries);
    }

    [Fact]
    public void One_role_is_not_two_people()
    {
        var first = Taken(Tick.Untouched.Confirm(By(TransportRole.RespiratoryTherapist), twoPeople: true));

        Assert.Equal(TickRefusal.SameRole, Refused(first.Confirm(By(TransportRole.RespiratoryTherapist, 5), twoPeople: true)));
    }

    [Fact]
    public void What_is_done_is_neither_confirmed_again_nor_skipped()
    {
        var done = Taken(Tick.Untouched.Confirm(By(TransportRole.TeamLead), twoPeople: false));

        Assert.Equal(TickRefusal.AlreadyDone, Refused(done.Confirm(By(TransportRole.CleanHelper), twoPeople: false)));
        Assert.Equal(TickRefusal.AlreadyDone, Refused(done.Skip(By(TransportRole.CleanHelper), SkipReason.NoTime)));
    }

    [Fact]
    public void A_skipped_item_keeps_its_reason_and_who_said_so_and_drops_a_first_look()
    {
        var first = Taken(Tick.Untouched.Confirm(By(TransportRole.RespiratoryTherapist), twoPeople: true));
        var skipped = Taken(first.Skip(By(TransportRole.TeamLead, 1), SkipReason.NotAvailable));

        Assert.Equal(TickState.Skipped, skipped.State);
        Assert.Equal(SkipReason.NotAvailable, skipped.Reason);
        Assert.Equal([By(TransportRole.TeamLead, 1)], skipped.Entries);
    }

    [Fact]
    public void An_item_that_was_skipped_and_is_found_after_all_needs_both_looks()
    {
        var skipped = Taken(Tick.Untouched.Skip(By(TransportRole.TeamLead), SkipReason.NotAvailable));
        var found = Taken(skipped.Confirm(By(TransportRole.TeamLead, 2), twoPeople: true));

        Assert.Equal(TickState.Open, found.State);
        Assert.Null(found.Reason);
        Assert.Equal([By(TransportRole.TeamLead, 2)], found.Entries);
    }

    [Theory]
    [InlineData(TransportRole.EveryCareGiver)]
    [InlineData(TransportRole.EveryTeamMember)]
    public void A_group_confirms_nothing(TransportRole group)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Tick.Untouched.Confirm(By(group), twoPeople: false));
        Assert.Throws<ArgumentOutOfRangeException>(() => Tick.Untouched.Skip(By(group), SkipReason.NoTime));
    }

    /// <summary>Whatever is entered in whatever order: done means enough confirmations by different roles, skipped means a reason and one entry.</summary>
    [Fact]
    public void No_row_of_entries_makes_a_tick_that_says_more_than_was_entered()
    {
        var steps = Gen.Select(Gen.Int[0, Tick.Roles.Count - 1], Gen.Bool).Array[0, 12];
        Gen.Select(steps, Gen.Bool).Sample((entries, twoPeople) =>
        {
            var tick = Tick.Untouched;
            foreach (var (index, confirms) in entries)
            {
                var role = Tick.Roles[index];
                var outcome = confirms ? tick.Confirm(By(role), twoPeople) : tick.Skip(By(role), SkipReason.LocalRule);
                tick = outcome is TickOutcome.Taken taken ? taken.Tick : tick;
                Assert.Equal(tick.Entries.Count, tick.Entries.Select(entry => entry.Role).Distinct().Count());
                Assert.Equal(tick.State == TickState.Skipped, tick.Reason is not null);
                Assert.Equal(
                    tick.State switch { TickState.Done => Tick.Needed(twoPeople), TickState.Skipped => 1, _ => Math.Min(tick.Entries.Count, Tick.Needed(twoPeople) - 1) },
                    tick.Entries.Count);
            }
        });
    }
}
