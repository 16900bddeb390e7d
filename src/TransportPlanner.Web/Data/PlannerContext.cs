using System.Text.Json;
using Microsoft.EntityFrameworkCore;

namespace TransportPlanner.Web.Data;

/// <summary>The tables. Each provider has a thin subclass, so that each has its own migrations.</summary>
internal abstract class PlannerContext(DbContextOptions options) : DbContext(options)
{
    public DbSet<Site> Sites => Set<Site>();
    public DbSet<FloorPlanVersion> FloorPlans => Set<FloorPlanVersion>();
    public DbSet<SiteClosure> Closures => Set<SiteClosure>();
    public DbSet<SettingValue> Settings => Set<SettingValue>();
    public DbSet<StoredPlan> Plans => Set<StoredPlan>();
    public DbSet<PlanVersion> PlanVersions => Set<PlanVersion>();
    public DbSet<ClinicalInput> ClinicalInputs => Set<ClinicalInput>();
    public DbSet<KitTick> KitTicks => Set<KitTick>();
    public DbSet<GoWord> GoWords => Set<GoWord>();
    public DbSet<CallEntry> Calls => Set<CallEntry>();
    public DbSet<AddedCylinderSize> CylinderSizes => Set<AddedCylinderSize>();
    public DbSet<ShelfCylinder> Shelf => Set<ShelfCylinder>();
    public DbSet<FlowCheck> FlowChecks => Set<FlowCheck>();
    public DbSet<IdempotencyKey> IdempotencyKeys => Set<IdempotencyKey>();
    public DbSet<BuildingImport> Imports => Set<BuildingImport>();
    public DbSet<ImportDecision> ImportDecisions => Set<ImportDecision>();
    public DbSet<MapTask> MapTasks => Set<MapTask>();

    public override int SaveChanges(bool acceptAllChangesOnSuccess)
    {
        RaiseVersions();
        return base.SaveChanges(acceptAllChangesOnSuccess);
    }

    public override Task<int> SaveChangesAsync(bool acceptAllChangesOnSuccess, CancellationToken cancellationToken = default)
    {
        RaiseVersions();
        return base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
    }

    protected override void OnModelCreating(ModelBuilder modelBuilder)
    {
        modelBuilder.Entity<Site>();
        modelBuilder.Entity<FloorPlanVersion>(e =>
        {
            e.HasKey(p => new { p.SiteId, p.Number });
            e.HasOne<Site>().WithMany().HasForeignKey(p => p.SiteId);
        });
        modelBuilder.Entity<SiteClosure>(e =>
        {
            e.Property(c => c.Target).HasConversion<string>();
            e.HasOne<Site>().WithMany().HasForeignKey(c => c.SiteId);
            e.HasIndex(c => new { c.SiteId, c.To });
        });
        modelBuilder.Entity<SettingValue>(e =>
        {
            e.HasKey(v => new { v.SiteId, v.Name });
            e.HasOne<Site>().WithMany().HasForeignKey(v => v.SiteId);
        });
        modelBuilder.Entity<StoredPlan>(e =>
        {
            e.HasOne<Site>().WithMany().HasForeignKey(p => p.SiteId);
            e.HasIndex(p => new { p.SiteId, p.CreatedAt });
            e.HasIndex(p => new { p.SiteId, p.VoidAfter });
        });
        modelBuilder.Entity<PlanVersion>(e =>
        {
            e.HasKey(v => new { v.PlanId, v.Number });
            e.HasOne<StoredPlan>().WithMany().HasForeignKey(v => v.PlanId);
        });
        modelBuilder.Entity<ClinicalInput>(e =>
        {
            e.HasKey(c => c.PlanId);
            e.HasOne<StoredPlan>().WithOne().HasForeignKey<ClinicalInput>(c => c.PlanId);
            e.HasIndex(c => c.EnteredAt);
        });
        modelBuilder.Entity<KitTick>(e =>
        {
            e.HasKey(t => new { t.PlanId, t.ItemId });
            e.HasOne<StoredPlan>().WithMany().HasForeignKey(t => t.PlanId);
            e.Property(t => t.State).HasConversion<string>();
            e.Property(t => t.Reason).HasConversion<string>();
            e.Property(t => t.FirstRole).HasConversion<string>();
            e.Property(t => t.SecondRole).HasConversion<string>();
        });
        modelBuilder.Entity<GoWord>(e =>
        {
            e.HasKey(w => new { w.PlanId, w.Number });
            e.HasOne<StoredPlan>().WithMany().HasForeignKey(w => w.PlanId);
            e.Property(w => w.Kind).HasConversion<string>();
            e.Property(w => w.Role).HasConversion<string>();
        });
        modelBuilder.Entity<CallEntry>(e =>
        {
            e.HasKey(c => new { c.PlanId, c.Role });
            e.HasOne<StoredPlan>().WithMany().HasForeignKey(c => c.PlanId);
            e.Property(c => c.Role).HasConversion<string>();
        });
        modelBuilder.Entity<AddedCylinderSize>(e =>
        {
            e.HasKey(c => new { c.SiteId, c.Id });
            e.Property(c => c.Gas).HasConversion<string>();
            e.Property(c => c.Unit).HasConversion<string>();
            e.HasOne<Site>().WithMany().HasForeignKey(c => c.SiteId);
        });
        modelBuilder.Entity<ShelfCylinder>(e =>
        {
            e.HasOne<Site>().WithMany().HasForeignKey(c => c.SiteId);
            e.HasIndex(c => new { c.SiteId, c.Tag }).IsUnique();
        });
        modelBuilder.Entity<FlowCheck>(e =>
        {
            e.HasOne<ShelfCylinder>().WithMany().HasForeignKey(c => c.CylinderId);
            e.HasIndex(c => new { c.CylinderId, c.At });
        });
        modelBuilder.Entity<IdempotencyKey>(e =>
        {
            e.HasKey(k => new { k.SiteId, k.Key });
            e.HasIndex(k => k.CreatedAt);
        });
        modelBuilder.Entity<BuildingImport>(e =>
        {
            e.ToTable("imports");
            e.Property(i => i.Format).HasConversion<string>();
            e.Property(i => i.State).HasConversion<string>();
            e.HasIndex(i => i.CreatedAt);
        });
        modelBuilder.Entity<ImportDecision>(e =>
        {
            e.HasKey(d => new { d.ImportId, d.Number });
            e.Property(d => d.Answer).HasConversion<string>();
            e.HasOne<BuildingImport>().WithMany().HasForeignKey(d => d.ImportId);
        });
        modelBuilder.Entity<MapTask>(e =>
        {
            e.Property(t => t.Target).HasConversion<string>();
            e.HasOne<Site>().WithMany().HasForeignKey(t => t.SiteId);
            e.HasIndex(t => new { t.SiteId, t.DoneAt });
        });

        foreach (var entity in modelBuilder.Model.GetEntityTypes())
        {
            entity.SetTableName(Snake(entity.GetTableName()!));
            foreach (var property in entity.GetProperties())
            {
                property.SetColumnName(Snake(property.Name));
            }

            if (entity.FindProperty(nameof(IVersioned.Version)) is { } version && entity.ClrType.IsAssignableTo(typeof(IVersioned)))
            {
                version.IsConcurrencyToken = true;
            }
        }
    }

    /// <summary>Names that PostgreSQL takes without quotes.</summary>
    private static string Snake(string name) => JsonNamingPolicy.SnakeCaseLower.ConvertName(name);

    private void RaiseVersions()
    {
        foreach (var entry in ChangeTracker.Entries<IVersioned>().Where(e => e.State is EntityState.Added or EntityState.Modified))
        {
            entry.Entity.Version++;
        }
    }
}
