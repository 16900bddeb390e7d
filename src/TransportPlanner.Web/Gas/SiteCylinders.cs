using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.Gas;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Gas;

/// <summary>Why a size that a site adds is refused.</summary>
internal enum AddedSizeProblemCode
{
    /// <summary>Its figures cannot be those of one cylinder, or its id is taken; errors names each member with the working.</summary>
    SizeRefused,
    /// <summary>The second entry differs from the first: one of the two was misread.</summary>
    ConfirmationDiffers,
    /// <summary>The role that entered the size cannot confirm it.</summary>
    SameRole,
    /// <summary>Entered before, or confirmed before.</summary>
    AlreadyThere,
}

/// <summary>Sizes that a site adds: entered in one role, confirmed in another. The page and the API do the same.</summary>
internal static class SiteCylinders
{
    /// <summary>Null where it is kept; else the problem.</summary>
    public static async Task<ProblemHttpResult?> AddAsync(PlannerContext context, AddedCylinderSize row, CancellationToken cancellationToken)
    {
        if (Refusal(row) is { } refusal)
        {
            return refusal;
        }

        var added = await AddedCylinderSize.OfSiteAsync(context, row.SiteId, cancellationToken);
        if (added.FirstOrDefault(size => size.Id.Equals(row.Id, StringComparison.OrdinalIgnoreCase)) is { } there)
        {
            return Problems.Conflict(
                AddedSizeProblemCode.AlreadyThere, $"{there.Id} was entered before by {there.EnteredBy}. Withdraw that entry first, or give another id.");
        }

        context.Add(row);
        await context.SaveChangesAsync(cancellationToken);
        return null;
    }

    /// <summary>Null where the second entry confirms the first; else the problem, without the first figures.</summary>
    public static async Task<ProblemHttpResult?> ConfirmAsync(
        PlannerContext context, AddedCylinderSize row, CylinderSizeConfirmation second, DateTimeOffset now, CancellationToken cancellationToken)
    {
        if (row.ConfirmedBy is not null)
        {
            return Problems.Conflict(AddedSizeProblemCode.AlreadyThere, $"{row.Id} was confirmed before by {row.ConfirmedBy}.");
        }

        if (row.EnteredBy.Equals(second.ConfirmedBy.Trim(), StringComparison.OrdinalIgnoreCase))
        {
            return Problems.ImpossibleField(
                AddedSizeProblemCode.SameRole, "confirmedBy", $"{row.EnteredBy} entered this size: another role reads the label again and confirms it.");
        }

        var differences = row.ToSize().DifferencesFrom(second.Gas, second.LabelLitres, second.Full, second.WaterCapacityLitres);
        if (differences.Count > 0)
        {
            const string Words = "Differs from the first entry. Read the label again, both of you; if the first entry is wrong, withdraw it.";
            return Problems.Impossible(
                AddedSizeProblemCode.ConfirmationDiffers, Words,
                ("errors", differences.ToDictionary(member => MemberOf(member, second.LabelPsi is null), _ => new[] { Words })));
        }

        // What was kept is computed once more: a row that somebody changed in the database must not pass.
        if (Refusal(row) is { } refusal)
        {
            return refusal;
        }

        (row.ConfirmedBy, row.ConfirmedAt) = (second.ConfirmedBy.Trim(), now);
        await context.SaveChangesAsync(cancellationToken);
        return null;
    }

    private static ProblemHttpResult? Refusal(AddedCylinderSize row)
    {
        var refusals = row.ToSize().WhyRefused();
        return refusals.Count == 0 ? null : Problems.Impossible(
            AddedSizeProblemCode.SizeRefused, refusals[0].Words,
            ("errors", refusals.GroupBy(refusal => MemberOf(refusal.Member, row.Unit == PressureUnit.Bar))
                .ToDictionary(group => group.Key, group => group.Select(refusal => refusal.Words).ToArray())));
    }

    private static string MemberOf(string member, bool isBar) => member switch
    {
        nameof(AddedSize.Id) => "sizeId",
        nameof(AddedSize.Full) => isBar ? "labelBar" : "labelPsi",
        nameof(AddedSize.WaterLitres) => "waterCapacityLitres",
        _ => JsonErrors.CamelCase(member),
    };
}
