using System.Globalization;
using TransportPlanner.Core.Kits;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Tests.Reference;

namespace TransportPlanner.Core.Tests.Kits;

public sealed class ProtectiveWearTests
{
    private const PrecautionSet Every = PrecautionSet.Airborne | PrecautionSet.Droplet | PrecautionSet.Contact;

    /// <summary>ppe-sequences.csv, sequence project-airborne (common practice).</summary>
    [Theory]
    [InlineData("don")]
    [InlineData("doff")]
    public void Airborne_wear_follows_the_project_sequence_step_by_step(string phase)
    {
        var wear = ProtectiveWear.For(PrecautionSet.Airborne);
        var printed = ReferenceFile.Rows("ppe-sequences.csv")
            .Where(row => row["sequence"] == "project-airborne" && row["phase"] == phase)
            .Select(row => $"{row["step"]} {row["id"]} {row["action"]} {row["place"]} {row["hand_hygiene_seconds"]}");

        var steps = (phase == "don" ? wear.On : wear.Off)
            .Select(step => FormattableString.Invariant($"{step.Order} {step.RuleId} {step.Action} {step.Place} {step.HandHygieneSeconds}"));

        Assert.Equal(printed, steps);
    }

    [Fact]
    public void Every_step_of_every_set_stands_in_the_order_of_its_source_and_names_it()
    {
        var printed = ReferenceFile.Rows("ppe-sequences.csv").ToDictionary(row => row["id"]);
        foreach (var precautions in new[] { PrecautionSet.Airborne, PrecautionSet.Droplet, PrecautionSet.Contact })
        {
            var wear = ProtectiveWear.For(precautions);
            foreach (var steps in new[] { wear.On, wear.Off })
            {
                Assert.Equal(steps.Select(step => step.RuleId).Order(StringComparer.Ordinal), steps.Select(step => step.RuleId));
                Assert.All(steps, step => Assert.Equal(printed[step.RuleId]["source"], step.Source.Title));
            }
        }
    }

    [Theory]
    [InlineData(PrecautionSet.None, "standard")]
    [InlineData(PrecautionSet.Contact, "cdc-contact")]
    [InlineData(PrecautionSet.Droplet, "cdc-droplet")]
    [InlineData(PrecautionSet.Droplet | PrecautionSet.Contact, "cdc-droplet")]
    [InlineData(PrecautionSet.Airborne, "project-airborne")]
    [InlineData(PrecautionSet.Airborne | PrecautionSet.Contact, "project-airborne")]
    [InlineData(Every, "project-airborne")]
    public void The_strictest_precaution_chooses_the_set(PrecautionSet precautions, string sequence) =>
        Assert.Equal(sequence, ProtectiveWear.For(precautions).Sequence);

    [Fact]
    public void A_precaution_that_does_not_exist_is_refused_and_not_read_as_none() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => ProtectiveWear.For((PrecautionSet)8));

    // PR-150: fifteen seconds are common practice, and the world guidance recalls longer; the site's figure is shown.
    [Fact]
    public void A_site_s_own_seconds_stand_on_every_hand_hygiene_step_and_on_no_other()
    {
        var (usual, own) = (ProtectiveWear.For(Every), ProtectiveWear.For(Every, 30));

        Assert.Equal(
            usual.On.Concat(usual.Off).Select(step => step.HandHygieneSeconds is null ? (int?)null : 30),
            own.On.Concat(own.Off).Select(step => step.HandHygieneSeconds));
        Assert.Throws<ArgumentOutOfRangeException>(() => ProtectiveWear.For(Every, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => ProtectiveWear.For(Every, 121));
    }

    [Fact]
    public void The_respirator_comes_off_last_and_outside()
    {
        var off = ProtectiveWear.For(PrecautionSet.Airborne).Off;

        Assert.StartsWith("respirator", off.Last(step => step.HandHygieneSeconds is null).Action, StringComparison.Ordinal);
        Assert.Contains("door closed", off[^2].Place, StringComparison.Ordinal);
        Assert.NotNull(off[^1].HandHygieneSeconds);
    }

    [Theory]
    [InlineData(PrecautionSet.Contact)]
    [InlineData(PrecautionSet.Droplet)]
    [InlineData(Every)]
    public void Hand_hygiene_shows_the_figure_of_the_site_and_the_longer_guidance(PrecautionSet precautions)
    {
        var wear = ProtectiveWear.For(precautions);
        var hands = wear.On.Concat(wear.Off).Where(step => step.Action == "hand hygiene").ToList();

        Assert.NotEmpty(hands);
        Assert.All(hands, step => Assert.Equal(15, step.HandHygieneSeconds));
        Assert.All(hands, step => Assert.Contains("rub 20 to 30 s, wash 40 to 60 s", step.HandHygieneGuidance, StringComparison.Ordinal));
        Assert.All(wear.On.Concat(wear.Off).Except(hands), step => Assert.Null(step.HandHygieneSeconds));
    }

    /// <summary>ppe-durations.csv; the sources stand in its rows.</summary>
    [Fact]
    public void Durations_are_the_published_ones_with_their_sources()
    {
        var printed = ReferenceFile.Rows("ppe-durations.csv").ToDictionary(row => row["id"]);
        var durations = ProtectiveWear.For(Every).Durations;

        Assert.Contains(durations, duration => duration.RuleId == "PD-15");
        Assert.All(durations, duration =>
        {
            Assert.Equal(double.Parse(printed[duration.RuleId]["seconds_min"], CultureInfo.InvariantCulture), duration.SecondsLow);
            Assert.Equal(double.Parse(printed[duration.RuleId]["seconds_max"], CultureInfo.InvariantCulture), duration.SecondsHigh);
            Assert.Equal(printed[duration.RuleId]["source"], duration.Source.Title);
        });
    }

    /// <summary>PR-156 alone protects too little where airborne precautions still hold.</summary>
    [Theory]
    [InlineData(PrecautionSet.Airborne)]
    [InlineData(Every)]
    public void Dressing_again_in_droplet_precautions_never_stands_alone(PrecautionSet precautions)
    {
        var again = ProtectiveWear.For(precautions).Cautions.Single(caution => caution.RuleId == "PR-156").Text;

        Assert.Contains("the airborne set goes on instead", again, StringComparison.Ordinal);
    }

    [Fact]
    public void A_set_that_is_not_airborne_says_what_changes()
    {
        Assert.Empty(ProtectiveWear.For(PrecautionSet.Airborne).Changes);
        Assert.Contains(ProtectiveWear.For(PrecautionSet.Droplet).Changes, change => change.Contains("mask", StringComparison.OrdinalIgnoreCase));
        Assert.Contains(ProtectiveWear.For(PrecautionSet.Contact).Changes, change => change.Contains("no respirator", StringComparison.Ordinal));
        Assert.Equal(TransportRole.DoffingWatcher, ProtectiveWear.For(PrecautionSet.Contact).Watcher.Role);
    }

    /// <summary>
    /// Those who give care wear the full set, whoever stands by wears less (Terheggen et al. 2021, items 2-3; PR-031); the helper in the
    /// same air keeps the respirator, since the rule that spares an escort needs a masked patient (CDC/HICPAC 2007; PR-101).
    /// </summary>
    [Theory]
    [InlineData(PrecautionSet.Airborne, "respirator", "respirator")]
    [InlineData(PrecautionSet.Droplet, "mask, eye protection, gown", "mask")]
    [InlineData(PrecautionSet.Contact, "gown and gloves", "clean hands")]
    public void Each_role_wears_what_its_distance_asks_for(PrecautionSet precautions, string crew, string helper)
    {
        var roles = ProtectiveWear.For(precautions).Roles;

        Assert.Contains(crew, roles.Single(role => role.Role == TransportRole.EveryCareGiver).Pieces, StringComparison.Ordinal);
        Assert.Equal(
            roles.Single(role => role.Role == TransportRole.EveryCareGiver).Pieces,
            roles.Single(role => role.Role == TransportRole.ReceivingNurse).Pieces);
        var clean = roles.Single(role => role.Role == TransportRole.CleanHelper);
        Assert.Contains(helper, clean.Pieces, StringComparison.Ordinal);
        Assert.True(clean.NeedsConfirmation);
        Assert.Contains(roles, role => role.Role == TransportRole.DoffingWatcher);
    }

    /// <summary>CDC/HICPAC 2003, Appendix B (PR-047): nobody enters until the air is renewed, or with a respirator.</summary>
    [Fact]
    public void Whoever_cleans_before_the_air_is_renewed_wears_a_respirator()
    {
        var cleaner = ProtectiveWear.For(PrecautionSet.Airborne).Roles.Single(role => role.Role == TransportRole.EnvironmentalServices);

        Assert.Contains("respirator while the air", cleaner.Pieces, StringComparison.Ordinal);
        Assert.All(ProtectiveWear.For(PrecautionSet.Airborne).Roles, role => Assert.Matches("fit.test", role.Size));
    }
}
