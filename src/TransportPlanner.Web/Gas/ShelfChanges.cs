using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Gas;

/// <summary>What changes a shelf. The page and the API do the same.</summary>
internal static class ShelfChanges
{
    /// <summary>The row that stands on the shelf now, or the problem.</summary>
    public static async Task<(ShelfCylinder? Row, ProblemHttpResult? Problem)> AddAsync(
        PlannerContext context, ShelfCylinderRequest request, DateTimeOffset now, CancellationToken cancellationToken)
    {
        if ((await Shelf.ReadAsync(context, request.SiteId, now, cancellationToken)).WhyNot(request) is { } problem)
        {
            return (null, problem);
        }

        var row = new ShelfCylinder
        {
            Id = RandomId.New(),
            SiteId = request.SiteId,
            Tag = request.Tag.Trim(),
            Cylinder = Shelf.TextOf(request.Cylinder),
            ReadAt = request.ReadAt ?? now,
            ReadBy = request.ReadBy.Trim(),
        };
        context.Add(row);
        await context.SaveChangesAsync(cancellationToken);
        return (row, null);
    }

    /// <summary>Null where the reading is kept.</summary>
    public static async Task<ProblemHttpResult?> ReadAsync(
        PlannerContext context, ShelfCylinder row, GaugeReadingRequest reading, DateTimeOffset now, CancellationToken cancellationToken)
    {
        if ((await Shelf.ReadAsync(context, row.SiteId, now, cancellationToken)).WhyNot(row.Id, reading, out var cylinder) is { } problem)
        {
            return problem;
        }

        (row.Cylinder, row.ReadAt, row.ReadBy) = (cylinder, reading.ReadAt ?? now, reading.ReadBy.Trim());
        try
        {
            await context.SaveChangesAsync(cancellationToken);
            return null;
        }
        catch (DbUpdateConcurrencyException)
        {
            return Problems.Stale(await context.Shelf.AsNoTracking().Where(c => c.Id == row.Id).Select(c => c.Version).SingleOrDefaultAsync(cancellationToken));
        }
    }

    public static async Task CheckAsync(PlannerContext context, ShelfCylinder row, FlowCheckRequest request, DateTimeOffset now, CancellationToken cancellationToken)
    {
        context.Add(new FlowCheck
        {
            Id = RandomId.New(),
            CylinderId = row.Id,
            At = now,
            FirstRole = request.FirstRole.Trim(),
            SecondRole = request.SecondRole.Trim(),
            CapOff = request.CapOff,
            ValveOpen = request.ValveOpen,
            FlowSet = request.FlowSet,
            FlowFelt = request.FlowFeltAtPatientEnd,
        });
        await context.SaveChangesAsync(cancellationToken);
    }

    public static async Task RemoveAsync(PlannerContext context, ShelfCylinder row, CancellationToken cancellationToken)
    {
        context.RemoveRange(await context.FlowChecks.Where(check => check.CylinderId == row.Id).ToListAsync(cancellationToken));
        context.Remove(row);
        await context.SaveChangesAsync(cancellationToken);
    }
}
