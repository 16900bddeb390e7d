using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Plans;

/// <summary>Reads and writes plan versions as the JSON that the API answers.</summary>
internal static class PlanStore
{
    // Not the strict reading of requests: a snapshot of an earlier release is read as far as it goes.
    private static readonly JsonSerializerOptions Snapshot = new(JsonSerializerDefaults.Web)
    {
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
        TypeInfoResolver = new DefaultJsonTypeInfoResolver { Modifiers = { AskForNoMember } },
        Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>A member that is new since then would make the whole plan unreadable.</summary>
    private static void AskForNoMember(JsonTypeInfo type)
    {
        foreach (var member in type.Properties)
        {
            member.IsRequired = false;
        }
    }

    /// <summary>The newest version, or the given one; null where there is none.</summary>
    public static async Task<PlanResponse?> FindAsync(PlannerContext context, string id, int? version, CancellationToken cancellationToken)
    {
        var versions = context.PlanVersions.AsNoTracking().Where(v => v.PlanId == id);
        var snapshot = await (version is { } number ? versions.Where(v => v.Number == number) : versions)
            .OrderByDescending(v => v.Number).Select(v => v.Snapshot).FirstOrDefaultAsync(cancellationToken);
        return snapshot is null ? null : Read(snapshot);
    }

    /// <summary>The plan that a row of <see cref="PlanVersion"/> holds.</summary>
    public static PlanResponse Read(string snapshot) =>
        JsonSerializer.Deserialize<PlanResponse>(snapshot, Snapshot) ?? throw new InvalidOperationException("A snapshot holds no plan.");

    /// <summary>Keeps version 1 of a new plan, with what makes its request repeatable.</summary>
    public static async Task AddAsync(
        PlannerContext context, PlanResponse plan, PlanRequest request, IdempotentRequest? repeat, DateTimeOffset now, CancellationToken cancellationToken)
    {
        context.Plans.Add(new()
        {
            Id = plan.Id,
            CallSign = plan.CallSign,
            SiteId = plan.SiteId,
            CreatedAt = now,
            CurrentVersion = plan.Version,
            DepartAt = plan.Routes.DepartAt,
            VoidAfter = plan.VoidAfter,
        });
        context.PlanVersions.Add(Row(plan));
        await KeepClinicalAsync(context, plan.Id, request, now, cancellationToken);
        if (repeat is not null)
        {
            context.IdempotencyKeys.Add(repeat.Keep(StatusCodes.Status201Created, plan.Id, now));
        }

        await context.SaveChangesAsync(cancellationToken);
    }

    /// <summary>Keeps the next version; false where somebody else made one meanwhile.</summary>
    public static async Task<bool> AddVersionAsync(
        PlannerContext context, StoredPlan stored, PlanResponse plan, PlanRequest request, DateTimeOffset now, CancellationToken cancellationToken)
    {
        (stored.CurrentVersion, stored.DepartAt, stored.VoidAfter) = (plan.Version, plan.Routes.DepartAt, plan.VoidAfter);
        context.PlanVersions.Add(Row(plan));
        await KeepClinicalAsync(context, plan.Id, request, now, cancellationToken);
        try
        {
            await context.SaveChangesAsync(cancellationToken);
            return true;
        }
        catch (DbUpdateException)
        {
            // The version was raised by another change, or the row of this version is there already.
            return false;
        }
    }

    /// <summary>Weight and gestation stand in a row of their own, which is deleted after 24 hours.</summary>
    private static async Task KeepClinicalAsync(PlannerContext context, string planId, PlanRequest request, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var kept = await context.ClinicalInputs.FindAsync([planId], cancellationToken);
        if (kept is null)
        {
            if (request.WeightGrams is not null || request.GestationWeeks is not null)
            {
                context.ClinicalInputs.Add(new() { PlanId = planId, WeightGrams = request.WeightGrams, GestationWeeks = request.GestationWeeks, EnteredAt = now });
            }
        }
        else
        {
            (kept.WeightGrams, kept.GestationWeeks, kept.EnteredAt) = (request.WeightGrams, request.GestationWeeks, now);
        }
    }

    private static PlanVersion Row(PlanResponse plan) => new()
    {
        PlanId = plan.Id,
        Number = plan.Version,
        FloorPlanVersion = plan.Routes.FloorPlanVersion,
        CreatedAt = plan.MadeAt,
        Snapshot = JsonSerializer.Serialize(plan, Snapshot),
    };
}
